"""Plans are kept as long as their tenant says, and erased when somebody asks."""

import pytest
from sqlalchemy import select, update

from service import retention as program
from service.storage.comparisons import ComparisonStore
from service.storage.database import reading, writing
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.retention import RetentionStore
from service.storage.tables import PlanRow, TripReportRow
from service.storage.trip_reports import TripReportStore

DAY_MS = 86_400_000


@pytest.fixture
def store(database):
    """The plans of all tenants."""
    return PlanStore(database, queue_limit=999)


def finished(store, database, *, tenant_id="a", days_ago=0.0, reference=None):
    """A plan that became final so many days ago."""
    plan = store.accept(tenant_id=tenant_id, reference=reference, solve_seconds=1.0, document={})
    queue = PlanQueue(database, lease_ms=60_000)
    claim = queue.claim(plan.plan_id)
    queue.finish(claim, state="done", outcome_kind="solved", outcome=b"{}")
    ago = round(days_ago * DAY_MS)
    with writing(database) as connection:
        connection.execute(
            update(PlanRow)
            .where(PlanRow.plan_id == plan.plan_id)
            .values(finished_at_ms=PlanRow.finished_at_ms - ago)
        )
    return plan.plan_id


def test_only_what_is_too_old_for_its_tenant_goes(store, database):
    """A plan goes once its days are over; younger ones, open ones and other tenants' stay."""
    retention = RetentionStore(database)
    old, young = finished(store, database, days_ago=8), finished(store, database, days_ago=6)
    others = finished(store, database, tenant_id="b", days_ago=900)
    waits = store.accept(tenant_id="a", reference=None, solve_seconds=1.0, document={}).plan_id
    assert retention.remove_old() == 0
    retention.keep(tenant_id="a", days=7)
    assert retention.remove_old() == 1
    assert store.read(tenant_id="a", plan_id=old) is None
    for plan_id, tenant_id in ((young, "a"), (waits, "a"), (others, "b")):
        assert store.read(tenant_id=tenant_id, plan_id=plan_id) is not None
    retention.keep(tenant_id="a", days=None)
    assert retention.kept() == {}


def test_reports_are_kept_as_long_as_their_plans(store, database):
    """A report of today on a plan that is too old goes with it; that on a younger plan stays.

    It says what people ate, burnt and wrote, and so must not outlive the plan that it is about.
    """
    reports, retention = TripReportStore(database), RetentionStore(database)
    old, young = finished(store, database, days_ago=8), finished(store, database, days_ago=6)
    others = finished(store, database, tenant_id="b", days_ago=8)
    for tenant_id, plan_id in (("a", old), ("a", young), ("b", others)):
        reports.keep(tenant_id=tenant_id, plan_id=plan_id, sent=b"{}", report=b"{}")
    retention.keep(tenant_id="a", days=7)
    assert retention.remove_old() == 1
    with reading(database) as connection:
        left = connection.execute(select(TripReportRow.plan_id)).scalars().all()
    assert set(left) == {young, others}


def test_more_than_fit_one_transaction_go(store, database, monkeypatch):
    """Removal goes on until nothing old is left."""
    monkeypatch.setattr("service.storage.retention._AT_ONCE", 2)
    for _ in range(5):
        finished(store, database, days_ago=2)
    retention = RetentionStore(database)
    retention.keep(tenant_id="a", days=1)
    assert retention.remove_old() == 5
    assert store.list(tenant_id="a", before_plan_id=None, limit=9) == []


def test_all_of_a_reference_is_erased(store, database):
    """Plans and comparisons of the reference go, and nothing of another or of another tenant."""
    finished(store, database, reference="r")
    other = finished(store, database, reference="s")
    finished(store, database, tenant_id="b", reference="r")
    compared = ComparisonStore(database)
    comparison_id = compared.add(
        tenant_id="a", reference="r", created_at_ms=1, rows=()
    ).comparison_id
    assert RetentionStore(database).erase(tenant_id="a", reference="r").plans == 1
    left = store.list(tenant_id="a", before_plan_id=None, limit=9)
    assert [plan.plan_id for plan in left] == [other]
    assert len(store.list(tenant_id="b", before_plan_id=None, limit=9)) == 1
    assert compared.read(tenant_id="a", comparison_id=comparison_id) is None


def test_the_program_says_who_keeps_how_long(tmp_path, monkeypatch, capsys):
    """`python -m service.retention` sets and shows days, and says when it erased nothing."""
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(tmp_path / "p.sqlite3"))
    assert program.main(["keep", "default", "30"]) == 0
    assert capsys.readouterr().out == "default: 30 days\n"
    assert program.main(["remove-old"]) == 0
    assert program.main(["erase", "default", "r"]) == 1
    assert program.main(["keep", "default", "forever"]) == 0
    capsys.readouterr()
    assert program.main(["list"]) == 0
    assert capsys.readouterr().out == ""
    with pytest.raises(SystemExit):
        program.main(["keep", "default", "0"])
