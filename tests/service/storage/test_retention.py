"""Plans are kept as long as their tenant says, and erased when somebody asks."""

from itertools import pairwise

import pytest
from sqlalchemy import func, select, update

from service import retention as program
from service.storage.comparisons import ComparisonStore
from service.storage.database import open_database, reading, writing
from service.storage.keys import KeyStore
from service.storage.leases import PlanQueue
from service.storage.library import EntryName, LibraryStore
from service.storage.plans import PlanStore
from service.storage.retention import RetentionStore
from service.storage.tables import ComparisonRow, LibraryRow, PlanRow, TripReportRow
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


def test_removal_goes_step_by_step(store, database, monkeypatch):
    """No step removes more than fit one transaction; tenants come one after the other."""
    monkeypatch.setattr("service.storage.retention._AT_ONCE", 2)
    compared = ComparisonStore(database)
    retention = RetentionStore(database)
    for tenant_id in ("a", "b"):
        retention.keep(tenant_id=tenant_id, days=1)
        for _ in range(3):
            finished(store, database, tenant_id=tenant_id, days_ago=2)
            compared.add(tenant_id=tenant_id, reference=None, created_at_ms=1, rows=())
    left = []
    for _ in retention.removal():
        with reading(database) as connection:
            tables = (PlanRow, ComparisonRow)
            counts = [select(func.count()).select_from(rows) for rows in tables]
            left.append(sum(connection.execute(one).scalar_one() for one in counts))
    assert left[-1] == 0
    assert max(was - now for was, now in pairwise([12, *left])) == 2


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
    assert program.main(["erase", "default", "r"]) == 3
    told = capsys.readouterr().err
    assert 'the tenant "default" has the reference "r"' in told
    assert "If you erased it before, nothing of it is left." in told
    assert program.main(["keep", "default", "forever"]) == 0
    capsys.readouterr()
    assert program.main(["list"]) == 0
    assert capsys.readouterr().out == ""
    with pytest.raises(SystemExit):
        program.main(["keep", "default", "0"])


def test_erasing_again_is_told_apart_from_what_is_not_done(store, database, monkeypatch, capsys):
    """The same command twice: the second finds nothing, says what it looked for, and is no 1."""
    monkeypatch.setattr(program, "open_or_end", lambda _: database)
    finished(store, database, reference="r")
    compared = ComparisonStore(database)
    compared.add(tenant_id="a", reference="s", created_at_ms=1, rows=())
    assert program.main(["erase", "a", "r"]) == 0
    assert "plans 1, entries of the library 0, comparisons 0." in capsys.readouterr().out
    assert program.main(["erase", "a", "r"]) == 3
    assert 'the tenant "a" has the reference "r"' in capsys.readouterr().err
    assert program.main(["erase", "a", "s"]) == 0
    assert "plans 0, entries of the library 0, comparisons 1." in capsys.readouterr().out


def test_a_tenant_that_has_nothing_is_refused(tmp_path, monkeypatch, capsys):
    """A misspelt name sets no days and erases nothing, and the program names who is known."""
    path = tmp_path / "p.sqlite3"
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    engine = open_database(path)
    KeyStore(engine).make(tenant_id="agency-1", scopes=("read",))
    finished(PlanStore(engine, queue_limit=9), engine, tenant_id="agency-2")
    LibraryStore(engine).put(
        EntryName("agency-3", "menus", "m"), title=None, reference=None, document=b"{}"
    )
    for what in (["keep", "agecny-1", "9"], ["keep", "default", "9"], ["erase", "agecny-1", "r"]):
        assert program.main(what) == 3
        told = capsys.readouterr()
        assert told.out == ""
        assert f"Nothing is known of a tenant {what[1]}." in told.err
        assert "Known are agency-1, agency-2, agency-3." in told.err
    for tenant_id in ("agency-1", "agency-2", "agency-3"):
        assert program.main(["keep", tenant_id, "9"]) == 0
    assert program.main(["keep", "agency-4", "9", "--new"]) == 0
    assert program.main(["keep", "agency-4", "forever"]) == 0
    assert set(RetentionStore(engine).kept()) == {"agency-1", "agency-2", "agency-3"}
    engine.dispose()


@pytest.mark.parametrize("days", ["0", "36501", "1.5", "year"])
def test_days_that_cannot_be_are_told_what_can(capsys, days):
    """The message says what to write."""
    with pytest.raises(SystemExit):
        program.main(["keep", "default", days])
    words = "argument days: write a whole number from 1 to 36500, or forever"
    assert words in capsys.readouterr().err


MARK = b"allergic-to-nuts"


@pytest.fixture
def file(tmp_path):
    """A file with a plan, a report on it and a roster, which say something of people."""
    path = tmp_path / "plans.sqlite3"
    engine = open_database(path)
    store, queue = PlanStore(engine, queue_limit=9), PlanQueue(engine, lease_ms=60_000)
    plan_id = store.accept(
        tenant_id="a", reference="r", solve_seconds=1.0, document={"say": MARK.decode()}
    ).plan_id
    queue.finish(queue.claim(plan_id), state="done", outcome_kind="solved", outcome=MARK)
    TripReportStore(engine).keep(tenant_id="a", plan_id=plan_id, sent=b"{}", report=MARK)
    LibraryStore(engine).put(ROSTER, title=None, reference="r", document=MARK)
    with writing(engine) as connection:
        connection.execute(update(PlanRow).values(finished_at_ms=1))
        connection.execute(update(LibraryRow).values(stored_at_ms=1))
    assert marks(path) >= 4
    yield path, engine, store, plan_id
    engine.dispose()


ROSTER = EntryName("a", "rosters", "us")


def marks(path):
    """How often what was said of people stands in the file and in its log."""
    log = path.with_name(path.name + "-wal")
    return sum(one.read_bytes().count(MARK) for one in (path, log) if one.exists())


def test_what_is_deleted_is_nowhere_any_more(file):
    """After the next look at the log neither file nor log say what a deleted plan or entry said."""
    path, engine, store, plan_id = file
    assert store.delete(tenant_id="a", plan_id=plan_id)
    store.tidy()
    assert marks(path) == 1
    assert LibraryStore(engine).delete(ROSTER, None)
    store.tidy()
    assert marks(path) == 0


@pytest.mark.parametrize("way", ["erase", "remove_old"])
def test_what_is_erased_or_too_old_is_nowhere_any_more(file, way):
    """Nor do they say what was of a reference that was erased, or what was too old."""
    path, engine, store, _ = file
    retention = RetentionStore(engine)
    if way == "erase":
        retention.erase(tenant_id="a", reference="r")
    else:
        retention.keep(tenant_id="a", days=1)
        retention.remove_old()
    store.tidy()
    assert marks(path) == 0


@pytest.mark.parametrize("way", [["erase", "a", "r"], ["remove-old"]])
def test_the_program_ends_the_log_itself(file, monkeypatch, capsys, way):
    """Beside a service that has the file open, nothing is left when the program says so."""
    path, engine, *_ = file
    RetentionStore(engine).keep(tenant_id="a", days=1)
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    assert program.main(way) == 0
    assert {"erase": "plans 1", "remove-old": "1 plans"}[way[0]] in capsys.readouterr().out
    assert marks(path) == 0


def test_the_program_says_where_the_log_still_has_it(file, monkeypatch, capsys):
    """While a backup reads what was, the log has to stay, and whoever erased is told."""
    path, engine, *_ = file
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    monkeypatch.setattr("service.retention._END_SECONDS", 0.2)
    with reading(engine) as reader:
        reader.execute(select(PlanRow.plan_id))
        assert program.main(["erase", "a", "r"]) == 1
    assert "Something still reads the database" in capsys.readouterr().err
    assert marks(path) > 0
    assert program.main(["erase", "a", "r"]) == 3
    assert marks(path) == 0
