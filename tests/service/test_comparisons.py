"""Comparisons as the service answers them, solved by the real solver."""

import asyncio
import csv
import io
import json
from types import SimpleNamespace

import pytest
from fastapi.testclient import TestClient

from api_schema.comparison_answer import ComparisonAnswer
from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.errors import ServiceProblem
from service.jobs.completions import Completions
from service.jobs.desk_child import work_at_desk
from service.jobs.desks import DesksInline
from service.reports.kept_figures import KeptFigures
from service.routes.comparison_plans import accept_comparison, comparison_answer, wait_for
from service.routes.sheet_answers import PDF
from service.settings import Settings
from service.storage.comparisons import ComparisonStore
from service.storage.database import open_database
from service.storage.idempotency import RequestKey
from service.storage.plans import PlanStore
from service.translation import TRANSLATION

VARIANTS = [
    {"name": "same", "patch": {}},
    {"name": "later", "patch": {"start_date": "2027-05-22"}},
    {"name": "without", "edits": [{"edit": "without", "person_id": "third"}]},
    {"name": "faulty", "patch": {"roster": {"0": {"pack_cap": "3 kg"}}}},
]


@pytest.fixture(scope="module")
def compared(caller) -> ComparisonAnswer:
    """The smallest request compared with four variants."""
    answer = caller.post(
        "/v1/comparisons",
        json={"base": SMALLEST_REQUEST, "variants": VARIANTS},
        headers={"Prefer": "wait=50"},
    )
    assert answer.status_code == 201, answer.text
    told = ComparisonAnswer.model_validate_json(answer.content)
    assert answer.headers["location"] == f"/v1/comparisons/{told.comparison_id}"
    return told


def test_every_variant_is_a_row_and_none_stops_another(compared):
    """Solved, equal, infeasible and faulty variants stand in one table, in order."""
    rows = {row.name: row for row in compared.rows}
    assert list(rows) == ["base", "same", "later", "without", "faulty"]
    assert compared.done
    assert (rows["base"].figures.outcome, rows["later"].figures.outcome) == ("solved", "solved")
    assert "2 roped people" in rows["without"].figures.reason
    assert rows["without"].edits == ["roster 3 -> 2"]
    assert rows["faulty"].state == "faulty"
    assert rows["faulty"].errors[0].pointer == "/variants/3/patch/roster"


def test_equal_requests_are_solved_once(compared):
    """The variant that changes nothing has the plan of the base; the others their own."""
    ids = [row.plan_id for row in compared.rows]
    assert ids[0] == ids[1]
    assert len({*ids[1:4]}) == 3
    assert ids[4] is None


def test_a_variant_alone_gives_the_same_plan(caller, compared):
    """Posted by itself the later start gives the loads that it has in the comparison."""
    row = next(row for row in compared.rows if row.name == "later")
    alone = caller.post(
        "/v1/plans",
        json=SMALLEST_REQUEST | {"start_date": "2027-05-22"},
        headers={"Prefer": "wait=50"},
    ).json()
    together = caller.get(f"/v1/plans/{row.plan_id}").json()
    assert alone["outcome"]["plan"] == together["outcome"]["plan"]


def test_the_table_is_read_again_in_three_formats(caller, compared):
    """JSON is what was answered, CSV has a line for each row, the page a column."""
    address = f"/v1/comparisons/{compared.comparison_id}"
    assert ComparisonAnswer.model_validate_json(caller.get(address).content) == compared
    rows = list(csv.DictReader(io.StringIO(caller.get(f"{address}?format=csv").text)))
    assert [row["name"] for row in rows] == [row.name for row in compared.rows]
    page = caller.get(address, headers={"Accept": "text/html"})
    assert page.headers["content-type"].startswith("text/html")
    assert page.text.count('<th scope="col">') == len(compared.rows) + 1


def test_outcomes_are_read_once(caller, compared, monkeypatch):
    """Reading the table again reads no outcome of a plan that is final, which may be large."""
    store = caller.app.state.wiring.store
    asked, really = [], store.read

    def read(**told):
        asked.append(told.get("with_outcome", True))
        return really(**told)

    monkeypatch.setattr(store, "read", read)
    caller.get(f"/v1/comparisons/{compared.comparison_id}")
    assert asked
    assert not any(asked)


def test_a_comparison_is_printed_from_an_address_of_its_own(caller, compared):
    """The sheets have every variant, the size of the paper that was asked for, and no script."""
    address = f"/v1/comparisons/{compared.comparison_id}/pages"
    for paper, size in (("a4", "A4"), ("a5", "A5"), ("letter", "letter")):
        page = caller.get(address, params={"paper": paper}, headers={"Accept": "text/html"})
        assert page.headers["content-type"].startswith("text/html")
        assert f"size: {size}" in page.text
        assert all(row.name in page.text for row in compared.rows)
        assert "<script" not in page.text
    wrong = caller.get(f"{address}?format={PDF}")
    assert wrong.status_code == 422


def test_the_difference_in_full_is_where_the_row_says(caller, compared):
    """The address in a row leads to the difference from the base to that variant's plan."""
    row = next(row for row in compared.rows if row.name == "later")
    told = caller.get(row.difference).json()
    assert (told["plan_id"], told["to_plan_id"]) == (compared.rows[0].plan_id, row.plan_id)
    assert [part["where"] for part in told["input"]] == ["/start_date"]


def test_what_cannot_be_compared_is_refused(caller):
    """A faulty base and an unknown comparison are problems, each with its place or status."""
    body = {"base": {**SMALLEST_REQUEST, "colour": "red"}, "variants": [{"name": "x"}]}
    refused = caller.post("/v1/comparisons", json=body)
    assert refused.status_code == 422
    assert refused.json()["errors"][0]["pointer"] == "/base/colour"
    assert caller.get(f"/v1/comparisons/comparison_{'0' * 26}").status_code == 404


@pytest.fixture
def waiting(tmp_path):
    """What routes work with where nothing is solved."""
    database = open_database(tmp_path / "plans.sqlite3")
    yield SimpleNamespace(
        tenant_id="theirs",
        may_plan=True,
        settings=Settings(database=tmp_path / "plans.sqlite3"),
        store=PlanStore(database, queue_limit=9),
        comparisons=ComparisonStore(database),
        figures=KeptFigures(),
        desks=DesksInline(work_at_desk),
        engine=SimpleNamespace(wake=lambda: None),
    )
    database.dispose()


def test_a_comparison_that_comes_again_with_its_key_is_stored_once(waiting):
    """The second is the first with its plans; with another body the key is refused."""
    body = {"base": SMALLEST_REQUEST, "variants": VARIANTS[:2]}
    key = RequestKey("k")
    first = accept_comparison(waiting, json.dumps(body).encode(), key)
    assert accept_comparison(waiting, json.dumps(body).encode(), key) == first
    assert len(waiting.store.list(tenant_id="theirs", before_plan_id=None, limit=9)) == 2
    without = accept_comparison(waiting, json.dumps(body).encode())
    assert not {row.plan_id for row in without.rows} & {row.plan_id for row in first.rows}
    with pytest.raises(ServiceProblem, match="idempotency_key_reused"):
        accept_comparison(waiting, json.dumps(body | {"variants": VARIANTS[1:2]}).encode(), key)


def test_a_variant_whose_plan_was_deleted_is_a_row_that_says_so(waiting):
    """The others stay readable, and the comparison is no longer waiting for it."""
    body = {
        "base": SMALLEST_REQUEST,
        "variants": VARIANTS[1:2],
        "choose": {"goal": "least", "figure": "people", "cancel_beaten": True},
    }
    stored = accept_comparison(waiting, json.dumps(body).encode())
    for number, states in enumerate((["queued", "deleted"], ["deleted", "deleted"])):
        plan_id = stored.rows[1 - number].plan_id
        assert waiting.store.delete(tenant_id="theirs", plan_id=plan_id)
        answer = comparison_answer(waiting, stored)
        assert [row.state for row in answer.rows] == states
        assert [row.plan_id is None for row in answer.rows] == [s == "deleted" for s in states]
    assert (answer.done, answer.chosen.name, answer.chosen.proven) == (True, None, False)
    asyncio.run(wait_for(SimpleNamespace(**vars(waiting), completions=Completions()), stored, 1.0))


def test_variants_without_room_in_the_queue_are_rows_that_say_so(tmp_path):
    """With room for one plan the base is accepted for its tenant, the variants are told why not."""
    database = open_database(tmp_path / "plans.sqlite3")
    wiring = SimpleNamespace(
        tenant_id="theirs",
        may_plan=True,
        settings=Settings(database=tmp_path / "plans.sqlite3"),
        store=PlanStore(database, queue_limit=1),
        comparisons=ComparisonStore(database),
        figures=KeptFigures(),
        desks=DesksInline(work_at_desk),
        engine=SimpleNamespace(wake=lambda: None),
    )
    body = json.dumps({"base": SMALLEST_REQUEST, "variants": VARIANTS[1:3]}).encode()
    answer = comparison_answer(wiring, accept_comparison(wiring, body))
    assert [row.state for row in answer.rows] == ["queued", "not_accepted", "not_accepted"]
    assert not answer.done
    plan_id = answer.rows[0].plan_id
    assert wiring.store.read(tenant_id="theirs", plan_id=plan_id) is not None
    assert wiring.store.read(tenant_id="default", plan_id=plan_id) is None
    with pytest.raises(ServiceProblem) as refused:
        accept_comparison(wiring, body)
    assert refused.value.code == "queue_full"
    database.dispose()


def test_the_fewest_people_of_a_list_are_found_and_the_rest_is_not_solved(tmp_path):
    """Two cannot go, three can: nobody waits for the other three or for all four."""
    database = tmp_path / "plans.sqlite3"
    body = {
        "base": SMALLEST_REQUEST,
        "people": [{"person_id": "fourth", "pack_cap": "24 kg"}],
        "optional_people": {"person_ids": ["third", "fourth"]},
        "choose": {"goal": "least", "figure": "people", "cancel_beaten": True},
    }
    settings = Settings(database=database, solve_workers=1)
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        answer = caller.post("/v1/comparisons", json=body, headers={"Prefer": "wait=55"})
        assert answer.status_code == 201, answer.text
        told = ComparisonAnswer.model_validate_json(answer.content)
        page = caller.get(answer.headers["location"], headers={"Accept": "text/html"}).text
    rows = {row.name: row for row in told.rows}
    assert [row.state for row in told.rows] == ["done", "done", "done", "cancelled", "cancelled"]
    assert rows["with none of them"].figures.outcome == "infeasible"
    assert rows["with third"].plan_id == rows["base"].plan_id
    assert (told.chosen.name, told.chosen.value, told.chosen.proven) == ("base", 3.0, True)
    assert "the least people within the limits" in page
