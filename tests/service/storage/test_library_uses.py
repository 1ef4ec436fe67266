"""What goes of the library when plans are erased or grow old."""

import contextlib
import threading
from dataclasses import replace

import pytest
from sqlalchemy import event, update

from service.errors import ServiceProblem
from service.storage.database import writing
from service.storage.library import EntryName, LibraryStore
from service.storage.library_uses import EntryUse
from service.storage.retention import RetentionStore
from service.storage.tables import LibraryRow

DAY_MS = 86_400_000


@pytest.fixture
def library(database):
    """The library on a fresh database of either kind."""
    return LibraryStore(database)


def stored(library, kind, entry_id, **more):
    """An entry of the tenant a."""
    said = {"title": "t", "reference": None} | more
    return library.put(EntryName("a", kind, entry_id), document=b"{}", **said)[0]


def planned(store, reference, *entries, **more):
    """A plan of a reference with what it used."""
    uses = tuple(EntryUse(e.kind, e.entry_id, e.version, e.digest) for e in entries)
    return store.accept(
        tenant_id="a", reference=reference, solve_seconds=1.0, document={}, uses=uses, **more
    ).plan_id


def is_there(library, entry):
    """Whether a version can be read."""
    return library.read(EntryName("a", entry.kind, entry.entry_id), entry.version) is not None


def test_erasing_a_reference_erases_the_people_that_only_it_named(library, store, database):
    """Its own entries go, and rosters that no other plan used; routes and shared rosters stay."""
    only, shared = stored(library, "rosters", "only"), stored(library, "rosters", "shared")
    route = stored(library, "routes", "ridge")
    own = stored(library, "gear-lists", "own", reference="r")
    unused = stored(library, "rosters", "unused")
    planned(store, "r", only, shared, route)
    planned(store, None, shared)
    erased = RetentionStore(database).erase(tenant_id="a", reference="r")
    assert (erased.plans, erased.entries) == (1, 2)
    assert [is_there(library, one) for one in (only, own)] == [False, False]
    assert all(is_there(library, one) for one in (shared, route, unused))


def test_erasing_a_reference_erases_every_version_of_its_entries(library, store, database):
    """Also what was stored before or after without a reference; not what names another one."""
    first = stored(library, "rosters", "us")
    planned(store, None, first)
    second = stored(library, "rosters", "us", reference="r")
    planned(store, None, second)
    third = stored(library, "rosters", "us", title="without")
    planned(store, None, third)
    fourth = stored(library, "rosters", "us", reference="s")
    others = stored(library, "gear-lists", "us")
    assert [first.version, second.version, third.version, fourth.version] == [1, 2, 3, 4]
    erased = RetentionStore(database).erase(tenant_id="a", reference="r")
    assert (erased.plans, erased.entries) == (0, 3)
    assert [is_there(library, one) for one in (first, second, third)] == [False] * 3
    assert is_there(library, fourth)
    assert is_there(library, others)


def test_another_tenant_erases_nothing_here(library, store, database):
    """The same reference of another tenant leaves plans and entries alone."""
    own = stored(library, "rosters", "own", reference="r")
    erased = RetentionStore(database).erase(tenant_id="b", reference="r")
    assert (erased.plans, erased.entries) == (0, 0)
    assert is_there(library, own)


def test_a_roster_that_no_plan_uses_any_more_grows_old(library, store, database):
    """Where plans are kept for some days, so are rosters without one; all else stays."""
    old, used = stored(library, "rosters", "old"), stored(library, "rosters", "used")
    route = stored(library, "routes", "ridge")
    planned(store, None, used)
    with writing(database) as connection:
        back = LibraryRow.stored_at_ms - 8 * DAY_MS
        connection.execute(update(LibraryRow).values(stored_at_ms=back))
    young = stored(library, "rosters", "young")
    retention = RetentionStore(database)
    retention.remove_old()
    assert is_there(library, old)
    retention.keep(tenant_id="a", days=7)
    retention.remove_old()
    assert not is_there(library, old)
    assert all(is_there(library, one) for one in (used, route, young))


def test_deleting_a_plan_leaves_the_version_frozen(library, store):
    """The plan is gone with what it used; the version stays, and stays as it is."""
    route = stored(library, "routes", "ridge")
    plan_id = planned(store, None, route)
    assert store.delete(tenant_id="a", plan_id=plan_id)
    assert library.used_by(tenant_id="a", plan_id=plan_id) == []
    assert library.read(EntryName("a", "routes", "ridge")).frozen


def test_deleting_an_entry_leaves_the_plan(library, store):
    """What was put into a request stays in it, and the plan still says what it used."""
    route = stored(library, "routes", "ridge")
    plan_id = planned(store, None, route)
    assert library.delete(EntryName("a", "routes", "ridge"), None)
    assert store.read(tenant_id="a", plan_id=plan_id) is not None
    assert library.used_by(tenant_id="a", plan_id=plan_id) == [("routes", "ridge", 1)]


def test_plans_that_name_the_same_entries_in_other_orders_do_not_wait_for_each_other(
    library, store, database
):
    """Both are accepted: each holds the entries in one order, whatever its request says."""
    entries = [stored(library, "gear-lists", name) for name in "ab"]
    both, came, seen = threading.Barrier(2), [], threading.local()

    def after_first_freeze(_connection, _cursor, statement, *_):
        if statement.startswith("UPDATE library") and not getattr(seen, "first", False):
            seen.first = True
            with contextlib.suppress(threading.BrokenBarrierError):
                both.wait(0.5)

    def accept(order):
        try:
            came.append(planned(store, "r", *order))
        except ServiceProblem as problem:
            came.append(problem.code)

    event.listen(database, "after_cursor_execute", after_first_freeze)
    plans = [threading.Thread(target=accept, args=(order,)) for order in (entries, entries[::-1])]
    for plan in plans:
        plan.start()
    for plan in plans:
        plan.join()
    event.remove(database, "after_cursor_execute", after_first_freeze)
    assert [code for code in came if not code.startswith("plan_")] == []
    assert library.read(EntryName("a", "gear-lists", "a")).frozen


def _during_a_plan(database, after, accept, then):
    """What a plan and a call give that begins when the plan has done its first such statement."""
    begun, came = threading.Event(), {}

    def told(name, one):
        try:
            came[name] = one()
        except ServiceProblem as problem:
            came[name] = problem.code

    other = threading.Thread(target=told, args=("call", then))

    def begin(_connection, _cursor, statement, *_):
        if statement.startswith(after) and not begun.is_set():
            begun.set()
            other.start()
            other.join(0.5)

    event.listen(database, "after_cursor_execute", begin)
    told("plan", accept)
    other.join(30)
    event.remove(database, "after_cursor_execute", begin)
    return came["plan"], came["call"]


def test_erasing_waits_for_a_plan_without_holding_what_the_plan_takes_next(
    library, store, database
):
    """Both take the entries in one order, also those that have no reference in one version."""
    last = stored(library, "gear-lists", "b")
    planned(store, "other", last)
    stored(library, "gear-lists", "b", reference="r")
    first = stored(library, "gear-lists", "a", reference="r")
    plan, erased = _during_a_plan(
        database,
        "UPDATE library",
        lambda: planned(store, "other", first, last),
        lambda: RetentionStore(database).erase(tenant_id="a", reference="r"),
    )
    assert plan.startswith("plan_")
    assert erased.entries == 3
    assert not is_there(library, last)


def test_a_roster_that_a_plan_takes_while_old_ones_are_removed_stays(library, store, database):
    """What is removed is settled when nobody else holds it any more."""
    rosters = [stored(library, "rosters", name) for name in "Bba"]
    with writing(database) as connection:
        connection.execute(update(LibraryRow).values(stored_at_ms=0))
    retention = RetentionStore(database)
    retention.keep(tenant_id="a", days=1)
    plan, removed = _during_a_plan(
        database,
        "UPDATE library",
        lambda: planned(store, "other", *rosters[:2]),
        retention.remove_old,
    )
    assert plan.startswith("plan_")
    assert removed == 0
    assert [is_there(library, roster) for roster in rosters] == [True, True, False]


def test_a_re_plan_with_an_entry_may_be_made_while_their_reference_is_erased(
    library, store, database
):
    """Entries come before plans in both: neither holds what the other one waits for."""
    entry = stored(library, "gear-lists", "a", reference="r")
    former = planned(store, "r")
    plan, erased = _during_a_plan(
        database,
        "INSERT INTO replans",
        lambda: planned(store, "r", entry, former_plan_id=former),
        lambda: RetentionStore(database).erase(tenant_id="a", reference="r"),
    )
    assert plan.startswith("plan_")
    assert (erased.plans, erased.entries) == (2, 1)


def test_what_is_frozen_is_not_written_again(library, store, database):
    """The second plan only sees that the entry is as it was read."""
    entry = stored(library, "menus", "m")
    written = []

    def note(_connection, cursor, statement, *_):
        if statement.startswith("UPDATE library"):
            written.append(cursor.rowcount)

    event.listen(database, "after_cursor_execute", note)
    planned(store, "r", entry)
    planned(store, "s", entry)
    event.remove(database, "after_cursor_execute", note)
    assert written == [1, 0]
    changed = replace(entry, digest="other")
    with pytest.raises(ServiceProblem, match="storage_unavailable"):
        planned(store, "s", changed)
