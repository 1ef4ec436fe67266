"""A view needs only what it shows; address, formats and cautions come by themselves."""

import json
from types import SimpleNamespace

import pytest
from fastapi import APIRouter
from pydantic import BaseModel

from service.errors import ServiceProblem
from service.http.negotiation import CSV, JSON
from service.reports.tables import Table
from service.routes.view_route import Seen, view_route

PLAN_ID = f"plan_{'a' * 26}"
CAUTION = {"caution_id": "c-1", "text": "Mind the gap."}
SOLVED = {"outcome": "solved", "reference": "r", "cautions": [CAUTION]}


class Shown(BaseModel):
    """A view with one part of its own."""

    plan_id: str
    reference: str
    cautions: list[dict[str, str]]
    things: list[str]


def wiring_with(outcome: dict) -> SimpleNamespace:
    """A wiring whose store has one finished plan."""
    plan = SimpleNamespace(
        summary=SimpleNamespace(state="done"), outcome_document=json.dumps(outcome).encode()
    )
    return SimpleNamespace(tenant_id="t", store=SimpleNamespace(read=lambda **_: plan))


@pytest.fixture
def router() -> APIRouter:
    """A router with no routes yet."""
    return APIRouter()


@pytest.fixture
def view(router):
    """A view of two words that do not depend on the plan."""

    @view_route(router, "few-things", summary="s", description="d", model=Shown)
    def read(_wiring, _plan_id, _outcome) -> Seen:
        return Seen({"things": ["a"]}, lambda: Table(("thing",), (("a",),)))

    return read


def test_a_view_has_its_address_and_its_operation(router, view):
    """The name stands in the address as it is and in the operation with underscores."""
    (route,) = router.routes
    assert (route.path, route.operation_id, route.response_model) == (
        "/v1/plans/{plan_id}/few-things",
        "read_plan_few_things",
        Shown,
    )
    assert route.endpoint is view


def test_a_view_has_two_formats_with_the_cautions(view):
    """JSON has the cautions beside its parts; each row of the CSV ends with their ids."""
    wiring = wiring_with(SOLVED)
    shown = json.loads(view(wiring, PLAN_ID, JSON, b"").body)
    assert shown == {
        "plan_id": PLAN_ID,
        "reference": "r",
        "cautions": [CAUTION],
        "things": ["a"],
    }
    table = view(wiring, PLAN_ID, CSV, b"MARK")
    assert table.body == b"MARKthing,cautions\r\na,c-1\r\n"
    assert (
        table.headers["content-disposition"] == f'attachment; filename="{PLAN_ID}-few-things.csv"'
    )


def test_a_view_of_no_plan_is_refused(view):
    """An outcome without a plan is the problem that says so."""
    with pytest.raises(ServiceProblem, match="no_plan_in_outcome"):
        view(wiring_with(SOLVED | {"outcome": "infeasible"}), PLAN_ID, JSON, b"")
