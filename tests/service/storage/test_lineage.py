"""Lines of plans as the database has them: who came of whom, and which one holds."""

from sqlalchemy import update

from service.storage.database import open_database, writing
from service.storage.lineage import Lineage, LineEntry
from service.storage.plan_ids import code_of
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.tables import PlanRow


def _store(tmp_path):
    engine = open_database(tmp_path / "plans.sqlite3")
    return engine, PlanStore(engine, queue_limit=99), Lineage(engine)


def _accept(store, former=None, tenant="a"):
    return store.accept(
        tenant_id=tenant, reference=None, solve_seconds=1.0, document={}, former_plan_id=former
    ).plan_id


def _solve(engine, *plan_ids):
    """Mark plans as solved, as a worker would."""
    with writing(engine) as connection:
        for plan_id in plan_ids:
            connection.execute(
                update(PlanRow)
                .where(PlanRow.plan_id == plan_id)
                .values(state="done", outcome_kind="solved", outcome_document=b"{}")
            )


def test_a_line_is_read_from_its_first_plan(tmp_path):
    """First, second, third; another tenant sees nothing of it."""
    _, store, lineage = _store(tmp_path)
    first = _accept(store)
    second = _accept(store, first)
    third = _accept(store, second)
    line = lineage.line_to(tenant_id="a", plan_id=third)
    assert line == (LineEntry(first, None), LineEntry(second, first), LineEntry(third, second))
    assert lineage.line_to(tenant_id="b", plan_id=third) == ()


def test_the_last_solved_re_plan_holds(tmp_path):
    """One that waits to be solved replaces nothing; of two that are solved the later one holds."""
    engine, store, lineage = _store(tmp_path)
    first = _accept(store)
    one = _accept(store, first)
    assert lineage.superseded_by(tenant_id="a", plan_id=first) is None
    _solve(engine, one)
    assert lineage.superseded_by(tenant_id="a", plan_id=first) == one
    other = _accept(store, first)
    _solve(engine, other)
    assert lineage.superseded_by(tenant_id="a", plan_id=first) == other
    assert lineage.superseded_by(tenant_id="b", plan_id=first) is None


def _look(store, former):
    """A re-plan of a plan that is made only to be looked at."""
    return store.accept(
        tenant_id="a",
        reference="r",
        solve_seconds=1.0,
        document={},
        former_plan_id=former,
        what_if=True,
    ).plan_id


def test_a_re_plan_to_look_at_supersedes_nothing(tmp_path):
    """Solved or not, the plan that is followed holds, and the line says which was to look at."""
    engine, store, lineage = _store(tmp_path)
    first = _accept(store)
    look = _look(store, first)
    _solve(engine, look)
    assert lineage.superseded_by(tenant_id="a", plan_id=first) is None
    line = lineage.line_to(tenant_id="a", plan_id=look)
    assert [entry.what_if for entry in line] == [False, True]


def test_who_plans_again_from_it_follows_it(tmp_path):
    """Then it supersedes what it came of, and so does one that it came of itself."""
    engine, store, lineage = _store(tmp_path)
    first = _accept(store)
    look = _look(store, first)
    further = _look(store, look)
    _solve(engine, look, further)
    assert lineage.superseded_by(tenant_id="a", plan_id=look) is None
    _accept(store, further)
    assert lineage.superseded_by(tenant_id="a", plan_id=first) == further
    assert lineage.superseded_by(tenant_id="a", plan_id=look) == further


def test_who_releases_it_follows_it(tmp_path):
    """A release takes a re-plan that was made only to be looked at."""
    engine, store, lineage = _store(tmp_path)
    first = _accept(store)
    look = _look(store, first)
    _solve(engine, look)
    ReleaseStore(engine).release(
        tenant_id="a", reference="r", plan_id=look, released_by="desk", key_id=None, outcome=b"{}"
    )
    assert lineage.superseded_by(tenant_id="a", plan_id=first) == look


def test_a_code_finds_solved_plans_of_its_tenant(tmp_path):
    """Four characters in capitals; plans that are not solved have nothing to answer with."""
    engine, store, lineage = _store(tmp_path)
    plan_id = _accept(store)
    code = code_of(plan_id)
    assert lineage.with_code(tenant_id="a", code=code) == ()
    _solve(engine, plan_id)
    assert lineage.with_code(tenant_id="a", code=code) == (plan_id,)
    assert lineage.with_code(tenant_id="b", code=code) == ()


def test_a_deleted_plan_leaves_its_line(tmp_path):
    """What comes after it stands alone, and nothing of it is left."""
    _, store, lineage = _store(tmp_path)
    first = _accept(store)
    second = _accept(store, first)
    assert store.delete(tenant_id="a", plan_id=first)
    line = lineage.line_to(tenant_id="a", plan_id=second)
    assert [entry.plan_id for entry in line] == [second]
