"""Runs the service with the real translation and one fault planted, for the proofs of the API.

The environment names the fault: PLANTED_FAULT.
"""

import dataclasses
import os
from collections.abc import Callable
from typing import Any

from sqlalchemy import select

from service import translation
from service.app import create_app
from service.jobs import lease_keeper
from service.jobs.desk_job import desk_job
from service.routes import one_plan
from service.server import HandingBackServer
from service.settings import Settings, read_settings
from service.storage import plans
from service.storage.database import reading
from service.storage.plans import PlanStore
from service.storage.tables import PlanRow
from service.translate.read import budget
from service.wiring import Translation

FAULT = "PLANTED_FAULT"


def _with_desk(name: str) -> Translation:
    module = "tests.reliability.planted_api"
    return dataclasses.replace(translation.TRANSLATION, desk_job=f"{module}:{name}")


def forgets_keys(settings: Settings) -> tuple[Settings, Translation]:
    """An Idempotency-Key is taken and not remembered."""
    plans.remember = lambda *_, **__: None
    return settings, translation.TRANSLATION


def mixes_tenants(settings: Settings) -> tuple[Settings, Translation]:
    """A plan is read by its name alone, whoever asks."""
    read_it = PlanStore.read

    def read(self: PlanStore, *, tenant_id: str, plan_id: str, **how: object) -> object:
        query = select(PlanRow.tenant_id).where(PlanRow.plan_id == plan_id)
        with reading(self._engine) as connection:
            owner = connection.execute(query).scalar_one_or_none()
        return read_it(self, tenant_id=owner or tenant_id, plan_id=plan_id, **how)

    PlanStore.read = read
    return settings, translation.TRANSLATION


def no_limits(settings: Settings) -> tuple[Settings, Translation]:
    """Desks may take a minute and all the memory, and no work is counted before it is done."""
    wide = settings.model_copy(update={"desk_seconds": 60.0, "desk_memory_mb": 8192})
    return wide, _with_desk("work_without_budget")


def breaks_at_a_value(settings: Settings) -> tuple[Settings, Translation]:
    """A request with a certain number in it is an error of ours."""
    return settings, _with_desk("work_that_breaks")


def reading_breaks(settings: Settings) -> tuple[Settings, Translation]:
    """Whoever reads a plan after it was answered gets an error of ours."""

    def plan_text(_plan: object) -> bytes:
        raise ZeroDivisionError("a planted fault")

    one_plan.plan_text = plan_text
    return settings, translation.TRANSLATION


def keeps_deleted(settings: Settings) -> tuple[Settings, Translation]:
    """A plan is answered as deleted and stays."""

    def delete(self: PlanStore, *, tenant_id: str, plan_id: str) -> bool:
        return self.read(tenant_id=tenant_id, plan_id=plan_id) is not None

    PlanStore.delete = delete
    return settings, translation.TRANSLATION


def hears_late(settings: Settings) -> tuple[Settings, Translation]:
    """Whoever works looks only every five seconds whether the caller wants something."""
    lease_keeper.LOOK_SECONDS = 5.0
    return settings, translation.TRANSLATION


def _state_without_budget(
    document: dict[str, object], part_names: tuple[str, ...] | None = None
) -> Any:
    budget.MOST_PACK_QUESTIONS = budget.MOST_RESERVE_NIGHTS = 10**12
    return translation.state_requirements(document, part_names)


def _state_and_break(document: dict[str, object], part_names: tuple[str, ...] | None = None) -> Any:
    if "999999999" in str(document):
        raise ZeroDivisionError("a planted fault")
    return translation.state_requirements(document, part_names)


def _desk(state: Callable[..., Any]) -> Any:
    return desk_job(translation.read_order, translation.judge_plan, state, translation.order_replan)


work_without_budget = _desk(_state_without_budget)
work_that_breaks = _desk(_state_and_break)
PLANTED = {
    fault.__name__: fault
    for fault in (
        forgets_keys,
        mixes_tenants,
        no_limits,
        breaks_at_a_value,
        reading_breaks,
        keeps_deleted,
        hears_late,
    )
}


def main() -> None:
    """Plant the fault that is named, and serve."""
    name = os.environ.pop(FAULT)
    settings, planted = PLANTED[name](read_settings())
    HandingBackServer(create_app(settings, planted), settings).run()


if __name__ == "__main__":
    main()
