"""The service as it is run, with the real translation and the real solver."""

import csv
import io
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from api_schema.bag_answer import BagsAnswer
from api_schema.difference_answer import DifferenceAnswer
from api_schema.examples import EMPTY_PLAN_CHECK, SMALLEST_REQUEST
from api_schema.load_sheet_answer import LoadSheetAnswer
from api_schema.plan_check import PlanCheckAnswer
from api_schema.plan_resource import LoadsAnswer, PlanResourceAnswer, StockListAnswer
from api_schema.purchase_answer import PurchasesAnswer
from service.app import create_app
from service.routes import more_tables
from service.routes.plan_tables import VIEWS
from service.settings import Settings
from service.translation import TRANSLATION
from tests.reliability.contract import SHORT, STATEFUL, ask, operations, served


@pytest.fixture(scope="module")
def real_client(tmp_path_factory) -> Iterator[TestClient]:
    """A caller of the service as it is run."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3")
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        yield caller


@pytest.fixture(scope="module")
def solved(real_client) -> dict:
    """The smallest request, solved."""
    answer = real_client.post("/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=50"})
    assert answer.status_code == 201, answer.text
    PlanResourceAnswer.model_validate_json(answer.content)
    assert answer.json()["outcome_kind"] == "solved", answer.text
    return answer.json()


def csv_rows(real_client, plan_id: str, view: str) -> list[dict[str, str]]:
    """The rows of a view as CSV."""
    answer = real_client.get(f"/v1/plans/{plan_id}/{view}", headers={"Accept": "text/csv"})
    assert answer.headers["content-type"].startswith("text/csv")
    return list(csv.DictReader(io.StringIO(answer.text)))


@pytest.mark.parametrize("view", [name for name, _ in VIEWS])
def test_each_table_has_an_address_of_its_own(real_client, solved, view):
    """`loads.csv` and its like are the tables that the views give for text/csv."""
    plan = f"/v1/plans/{solved['plan_id']}"
    own = real_client.get(f"{plan}/{view}.csv")
    by_accept = real_client.get(f"{plan}/{view}", headers={"Accept": "text/csv"})
    assert (own.status_code, own.content) == (200, by_accept.content)
    assert own.headers["Content-Type"].startswith("text/csv")
    assert real_client.get("/v1/plans/plan_none/loads.csv").status_code == 404


def test_tables_that_are_no_views_have_addresses_too(real_client, solved):
    """Each is what the address beside it gives for text/csv, with the parameters of that."""
    plan_id = solved["plan_id"]
    compared = real_client.post(
        "/v1/comparisons", json={"base": SMALLEST_REQUEST, "variants": [{"name": "same"}]}
    ).json()["comparison_id"]
    for address, beside in (
        (f"/v1/plans/{plan_id}/difference.csv?to={plan_id}", f"/v1/plans/{plan_id}/difference"),
        (f"/v1/comparisons/{compared}/table.csv", f"/v1/comparisons/{compared}"),
        ("/v1/library/gear.csv?byte_order_mark=true", "/v1/library/gear"),
    ):
        own = real_client.get(address)
        assert own.headers["Content-Type"].startswith("text/csv")
        query = address.partition("?")[2]
        told = real_client.get(f"{beside}?{query}", headers={"Accept": "text/csv"})
        assert (own.status_code, own.content) == (200, told.content)
    for nothing in ("limits-that-bind.csv", "reports/report_x/table.csv"):
        assert real_client.get(f"/v1/plans/plan_none/{nothing}").status_code == 404
    assert len(more_tables.router.routes) == 5


def test_the_request_can_be_read_back_and_sent_again(real_client, solved):
    """The stored request is what was sent."""
    again = real_client.get(f"/v1/plans/{solved['plan_id']}/request").json()
    assert again == SMALLEST_REQUEST


def test_the_smallest_request_is_solved_and_checked(solved):
    """The smallest request gives a plan whose independent check has no findings."""
    outcome = solved["outcome"]
    assert outcome["outcome"] == "solved"
    assert outcome["check"]["findings"] == []
    assert 0 < outcome["peak"]["load_fraction"] <= 1


def test_the_loads_add_up_to_gross_in_csv(real_client, solved):
    """Summed by person and trip, the lines of the CSV are the gross pack and sled of the plan."""
    summed = defaultdict(float)
    for row in csv_rows(real_client, solved["plan_id"], "loads"):
        carried_in = "pack" if row["carried_in"] == "pack" else "sled"
        summed[row["day"], row["step"], row["person_id"], carried_in] += float(row["kg"])
    compared = 0
    for trip in solved["outcome"]["plan"]["trips"]:
        for load in trip["loads"]:
            key = (str(trip["day"]), str(trip["step"]), load["person_id"])
            # Each line is exact to the gram; the sum of floats is not.
            assert summed[*key, "pack"] == pytest.approx(load["pack_kg"], abs=1e-6)
            assert summed[*key, "sled"] == pytest.approx(load["sled_kg"], abs=1e-6)
            compared += 1
    assert compared > 10


def test_the_stock_adds_up_in_csv(real_client, solved):
    """Summed by night and place, the lines of the CSV are the kilograms that the plan tells."""
    summed = defaultdict(float)
    for row in csv_rows(real_client, solved["plan_id"], "stock"):
        summed[row["day"], row["place"]] += float(row["kg"])
    told = {(str(s["day"]), s["place"]): s["kg"] for s in solved["outcome"]["plan"]["stock"]}
    assert {key: pytest.approx(kg, abs=1e-6) for key, kg in told.items() if kg} == summed


def test_views_in_json_match_their_schemas(real_client, solved):
    """The loads and the stock are what the published schemas say."""
    address = f"/v1/plans/{solved['plan_id']}"
    loads = LoadsAnswer.model_validate_json(real_client.get(f"{address}/loads").content)
    stock = StockListAnswer.model_validate_json(real_client.get(f"{address}/stock").content)
    assert loads.trips
    assert stock.stock


def test_the_load_sheet_has_every_thing_of_the_loads_by_name(real_client, solved):
    """The CSV adds up to each person's load with the sled itself; what is in use has no mass."""
    address = f"/v1/plans/{solved['plan_id']}/load-sheet"
    sheet = LoadSheetAnswer.model_validate_json(real_client.get(address).content)
    rows = csv_rows(real_client, solved["plan_id"], "load-sheet")
    assert len(rows) == len(sheet.rows)
    summed = defaultdict(float)
    assert {row["kg"] for row in rows if row["carried_in"] == "in_use"} == {""}
    for row in rows:
        if row["carried_in"] != "in_use":
            summed[row["day"], row["step"], row["person_id"]] += float(row["kg"])
    for trip in solved["outcome"]["plan"]["trips"]:
        for load in trip["loads"]:
            key = (str(trip["day"]), str(trip["step"]), load["person_id"])
            assert summed[key] == pytest.approx(load["total_kg"], abs=1e-6)
    assert len(sheet.kitchens) == 5
    assert {k.thing for k in sheet.keepers} >= {"tent", "pot", "rope"}


def test_the_query_goes_before_the_accept_header(real_client, solved):
    """?format=csv gives CSV to a browser that asks for anything."""
    answer = real_client.get(f"/v1/plans/{solved['plan_id']}/loads?format=csv")
    assert answer.headers["content-type"].startswith("text/csv")
    assert "Accept" in answer.headers["Vary"].split(", ")


def test_our_own_plan_passes_when_sent_back(real_client, solved):
    """A plan from an answer, sent to be checked, has no findings."""
    body = {"request": SMALLEST_REQUEST, "plan": solved["outcome"]["plan"]}
    answer = real_client.post("/v1/plan-checks", json=body)
    assert answer.status_code == 200, answer.text
    assert PlanCheckAnswer.model_validate_json(answer.content).check.passed


def test_a_plan_that_carries_nothing_has_findings(real_client):
    """A plan without loads is judged, not refused, and breaks many rules."""
    answer = real_client.post("/v1/plan-checks", json=EMPTY_PLAN_CHECK)
    assert answer.status_code == 200, answer.text
    assert len(answer.json()["check"]["findings"]) > 3


def test_an_edited_plan_is_caught(real_client, solved):
    """A bag dropped from one pack is found by the check."""
    plan = real_client.get(f"/v1/plans/{solved['plan_id']}").json()["outcome"]["plan"]
    load = next(load for trip in plan["trips"] for load in trip["loads"] if load["pack"])
    load["pack"].pop()
    body = {"request": SMALLEST_REQUEST, "plan": plan}
    assert not real_client.post("/v1/plan-checks", json=body).json()["check"]["passed"]


def test_faults_of_a_real_request_are_told_together(real_client):
    """A cap without a unit and an unknown field are told in one answer, each with its pointer."""
    request = SMALLEST_REQUEST | {
        "roster": [{"person_id": "lead", "pack_cap": "27"}],
        "colour": "red",
    }
    answer = real_client.post("/v1/plans", json=request)
    assert answer.status_code == 422
    pointers = {entry["pointer"] for entry in answer.json()["errors"]}
    assert {"/roster/0/pack_cap", "/colour"} <= pointers


def test_the_web_process_never_loads_the_solver():
    """Importing all that the web process runs leaves ortools out, and the collector on."""
    code = "import gc, service.__main__, sys; print('ortools' in sys.modules, gc.isenabled())"
    ran = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert ran.stdout.split() == ["False", "True"]


def test_the_service_keeps_to_its_published_description(tmp_path):
    """Schemathesis finds no answer, status, header or 5xx that the description does not allow.

    `bash tests/reliability/run.sh contract --long` asks each operation a thousand times.
    """
    with served(tmp_path) as running:
        phases = "examples,fuzzing,stateful"
        verdict = ask(running, STATEFUL, examples=SHORT, phases=phases)
    assert verdict.is_well, str(verdict)
    assert verdict.cases > len(operations())


def test_the_shopping_list_weighs_what_is_taken_along(real_client, solved):
    """Purchases add up to the mass at the start, and every bag and container has a label."""
    address = f"/v1/plans/{solved['plan_id']}"
    bought = PurchasesAnswer.model_validate_json(real_client.get(f"{address}/purchases").content)
    taken = solved["outcome"]["plan"]["taken_along"]
    assert sum(p.kg for p in bought.purchases) == pytest.approx(
        sum(unit["count"] * unit["each_kg"] for unit in taken), abs=1e-6
    )
    assert 0 < bought.assumed < len(bought.purchases)
    labels = BagsAnswer.model_validate_json(real_client.get(f"{address}/bags").content).bags
    for kind in ("food", "fuel"):
        counted = sum(p.count for p in bought.purchases if p.kind == kind)
        assert sum(bag.count for bag in labels if bag.kind == kind) == counted
    assert [bag.owner for bag in labels if bag.kind == "personal"] == ["lead", "second", "third"]
    assert len(csv_rows(real_client, solved["plan_id"], "purchases")) == len(bought.purchases)
    assert len(csv_rows(real_client, solved["plan_id"], "bags")) == len(labels)


def test_two_plans_are_held_against_each_other(real_client, solved):
    """Without the third person the difference names the person, and why there is no plan."""
    body = SMALLEST_REQUEST | {"without": ["third"]}
    other = real_client.post("/v1/plans", json=body, headers={"Prefer": "wait=50"}).json()
    address = f"/v1/plans/{solved['plan_id']}/difference?to={other['plan_id']}"
    told = DifferenceAnswer.model_validate_json(real_client.get(address).content)
    assert (told.people_left, told.people_joined) == (["third"], [])
    assert [(part.where, part.kind) for part in told.input] == [("/roster/third", "removed")]
    assert "2 roped people" in str(told.figures_to.reason)
    assert (told.figures_from.people, told.figures_to.people) == (3, None)
    unknown = f"/v1/plans/{solved['plan_id']}/difference?to=plan_{'0' * 26}"
    assert real_client.get(unknown).status_code == 404
    assert real_client.get(f"/v1/plans/{solved['plan_id']}/difference").status_code == 422
    rows = real_client.get(f"{address}&format=csv").text.splitlines()
    assert rows[0] == "part,what,from,to,change"
