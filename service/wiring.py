"""What the routes work with, put together once at start and found on the application."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, cast

from fastapi import Depends, Request

from service.jobs.completions import Completions
from service.jobs.engine import EmbeddedEngine
from service.settings import Settings
from service.storage.plans import PlanStore

DEFAULT_TENANT = "default"
"""The one tenant of a service that knows no keys."""


@dataclass(frozen=True, slots=True)
class PlanOrder:
    """A request in order: the caller's reference, and the time that its solve may take [s]."""

    reference: str | None
    solve_seconds: float | None


@dataclass(frozen=True, slots=True)
class Translation:
    """The ways between wire and solver that routes use, and the job that a child runs.

    `read_plan_request` gives what the routes need to know of a request, and raises RequestFaults
    on one that is not in order; `judge_plan` gives the findings on a problem and a plan, and
    raises RequestFaults too.
    `solve_job` is the dotted path, "module:function", of a job (see jobs.child_process).
    """

    read_plan_request: Callable[[dict[str, object]], PlanOrder]
    judge_plan: Callable[[dict[str, object]], dict[str, object]]
    solve_job: str


@dataclass(frozen=True, slots=True)
class Wiring:
    """Everything that a route may need."""

    settings: Settings
    translation: Translation
    store: PlanStore
    engine: EmbeddedEngine
    completions: Completions


def _wiring(request: Request) -> Wiring:
    return cast(Wiring, request.app.state.wiring)


Wired = Annotated[Wiring, Depends(_wiring)]
