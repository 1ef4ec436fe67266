"""Reports after the expedition: kept with their plan, once for each body, and gone with it."""

import pytest

from service.errors import ServiceProblem
from service.storage.retention import RetentionStore
from service.storage.trip_reports import MOST_KEPT, TripReportStore


@pytest.fixture
def reports(database):
    """The reports on a fresh database of either kind."""
    return TripReportStore(database)


@pytest.fixture
def plan_id(store):
    """A plan of the tenant a."""
    return store.accept(tenant_id="a", reference="r", solve_seconds=1.0, document={}).plan_id


def kept(reports, plan_id, sent=b"{}"):
    """A report on a plan of the tenant a."""
    return reports.keep(tenant_id="a", plan_id=plan_id, sent=sent, report=b"told " + sent)


def test_the_same_body_is_the_same_report(reports, plan_id):
    """What is sent again gives what was stored; another body gives another report."""
    first, other = kept(reports, plan_id), kept(reports, plan_id, b"[]")
    assert kept(reports, plan_id) == first
    assert first.report_document == b"told {}"
    assert first.created_at_ms > 0
    assert {one.report_id for one in reports.of_plans(tenant_id="a", plan_ids=[plan_id])} == {
        first.report_id,
        other.report_id,
    }


def test_the_newest_are_kept(reports, plan_id, monkeypatch):
    """Of more than are kept the first one goes."""
    names = iter(f"report_{number:026}" for number in range(MOST_KEPT + 1))
    monkeypatch.setattr("service.storage.trip_reports.new_plan_id", lambda _: next(names))
    made = [kept(reports, plan_id, str(n).encode()) for n in range(MOST_KEPT + 1)]
    found = reports.of_plans(tenant_id="a", plan_ids=[plan_id])
    assert list(found) == made[:0:-1]


def test_tenants_and_plans_are_apart(reports, plan_id):
    """Nobody else reads it, and it is the report of no other plan."""
    mine = kept(reports, plan_id)
    ask = {"tenant_id": "a", "plan_id": plan_id, "report_id": mine.report_id}
    assert reports.read(**ask) == mine
    assert reports.read(**ask | {"tenant_id": "b"}) is None
    assert reports.read(**ask | {"plan_id": "plan_2"}) is None
    assert reports.of_plans(tenant_id="b", plan_ids=[plan_id]) == ()
    assert reports.of_plans(tenant_id="a", plan_ids=[]) == ()


def test_what_is_no_name_of_a_report_names_none(reports, plan_id):
    """Whatever stands in an address is asked; PostgreSQL takes no U+0000 in a text."""
    for name in ("report_\0", "\0", "", "report_1", "plan_1"):
        assert reports.read(tenant_id="a", plan_id=plan_id, report_id=name) is None


def test_a_report_is_erased_with_its_plan(reports, store, database, plan_id):
    """Deleting a plan, or erasing what its reference has, leaves no report of it."""
    kept(reports, plan_id)
    assert store.delete(tenant_id="a", plan_id=plan_id)
    assert reports.of_plans(tenant_id="a", plan_ids=[plan_id]) == ()
    other = store.accept(tenant_id="a", reference="r", solve_seconds=1.0, document={}).plan_id
    kept(reports, other)
    RetentionStore(database).erase(tenant_id="a", reference="r")
    assert reports.of_plans(tenant_id="a", plan_ids=[other]) == ()


def test_a_plan_that_went_meanwhile_has_no_report(reports):
    """Without its plan a report is not stored, and to ask again is of no use."""
    with pytest.raises(ServiceProblem) as refused:
        kept(reports, "plan_" + "0" * 26)
    assert refused.value.code == "not_found"
