"""The library on a fresh database of either kind: versions, what freezes and removes them."""

import threading
import time

import pytest

from service.errors import ServiceProblem
from service.storage.library import EntryName, LibraryStore
from service.storage.library_uses import EntryUse

NAME = EntryName("a", "routes", "ridge")


@pytest.fixture
def library(database):
    """The library on a fresh database of either kind."""
    return LibraryStore(database)


def put(library, document=b"{}", name=NAME, **more):
    """Store an entry of the tenant a."""
    return library.put(name, title=None, reference=None, document=document, **more)


def use(store, entry, **more):
    """A plan of the tenant a that uses an entry."""
    return store.accept(
        tenant_id="a",
        reference=more.pop("reference", None),
        solve_seconds=1.0,
        document={},
        uses=(uses_entry(entry),),
        **more,
    ).plan_id


def uses_entry(entry):
    """What a request takes."""
    return EntryUse(entry.kind, entry.entry_id, entry.version, entry.digest)


def test_what_no_plan_used_is_changed_in_place(library):
    """The second text takes the place of the first, with the same number; the same one is none."""
    first, is_new = put(library, b"1")
    assert (first.version, is_new, first.frozen) == (1, True, False)
    second, is_new = put(library, b"2")
    assert (second.version, is_new, second.document) == (1, False, b"2")
    assert put(library, b"2") == (second, False)


def test_what_a_plan_used_never_changes(library, store):
    """A plan freezes the version that it used; what is stored next is another version."""
    first, _ = put(library, b"1")
    plan_id = use(store, first)
    assert library.used_by(tenant_id="a", plan_id=plan_id) == [("routes", "ridge", 1)]
    assert library.used_by(tenant_id="b", plan_id=plan_id) == []
    second, is_new = put(library, b"2")
    assert (second.version, is_new, second.versions) == (2, True, (1, 2))
    assert library.read(NAME, 1).document == b"1"
    assert library.read(NAME, 1).frozen
    assert library.read(NAME) == second


def test_a_plan_of_something_that_changed_since_is_not_accepted(library, store):
    """Between reading and accepting somebody stored another text: the caller sends it again."""
    read, _ = put(library, b"1")
    put(library, b"2")
    with pytest.raises(ServiceProblem) as refused:
        use(store, read)
    assert refused.value.code == "storage_unavailable"
    assert store.list(tenant_id="a", before_plan_id=None, limit=9) == []
    assert not library.read(NAME).frozen


def test_a_number_is_never_given_again(library, store):
    """After all versions went, the next one has a new number, and the old one stays empty."""
    use(store, put(library, b"1")[0])
    put(library, b"2")
    assert library.delete(NAME, None)
    assert library.read(NAME) is None
    assert library.read(NAME, 1) is None
    assert not library.delete(NAME, None)
    assert put(library, b"3")[0].version == 3


def test_one_version_goes_alone(library, store):
    """The others stay, and the newest that is left is what is read."""
    use(store, put(library, b"1")[0])
    put(library, b"2")
    assert library.delete(NAME, 2)
    assert library.read(NAME).version == 1
    assert not library.delete(NAME, 2)


def test_tenants_and_kinds_are_apart(library):
    """The same id is another thing for another tenant or of another kind."""
    put(library, b"1")
    put(library, b"2", EntryName("b", "routes", "ridge"))
    put(library, b"3", EntryName("a", "menus", "ridge"))
    assert library.read(NAME).document == b"1"
    assert library.read(EntryName("a", "rosters", "ridge")) is None
    found = library.list(tenant_id="a", kind=None, after=None, limit=9)
    assert [(one.kind, one.document) for one in found] == [("menus", b"3"), ("routes", b"1")]


def test_the_list_goes_by_kind_and_id_with_the_newest_of_each(library, store):
    """A page begins behind the place that the caller names."""
    for number in range(3):
        use(store, put(library, b"1", EntryName("a", "routes", f"r{number}"))[0])
    newest, _ = put(library, b"2", EntryName("a", "routes", "r1"))
    page = library.list(tenant_id="a", kind="routes", after="routes/r0", limit=1)
    assert [(one.entry_id, one.version) for one in page] == [("r1", newest.version)]
    assert library.list(tenant_id="a", kind="menus", after=None, limit=9) == []
    assert library.list(tenant_id="a", kind=None, after="routes/r2", limit=9) == []


def test_nothing_is_stored_over_a_state_that_the_caller_does_not_know(library):
    """A condition that does not hold leaves everything as it was, for a change and a removal."""
    first, _ = put(library, b"1")
    for attempt in (
        lambda: put(library, b"2", admits=lambda now: now is None),
        lambda: library.delete(NAME, None, lambda now: now.digest == "other"),
    ):
        with pytest.raises(ServiceProblem) as refused:
            attempt()
        assert refused.value.code == "changed_since"
    assert library.read(NAME) == first


def both_at_once(library, first, second):
    """What two changes give that know the same state, the second begun within the first."""
    known, _ = put(library, b"1")
    looked, came = threading.Event(), []

    def slowly(now):
        looked.set()
        time.sleep(0.3)
        return now is not None and now.digest == known.digest

    def of_second():
        looked.wait(10)
        came.append(outcome_of(lambda: second(library, lambda now: now and now == known)))

    other = threading.Thread(target=of_second)
    other.start()
    came.insert(0, outcome_of(lambda: first(library, slowly)))
    other.join()
    return came


def outcome_of(change):
    """What a change gives, or the code of the problem that it raises."""
    try:
        return change()
    except ServiceProblem as problem:
        return problem.code


def overwrite(library, admits):
    """A change in place."""
    return put(library, b"2", admits=admits)[0].version


def remove(library, admits):
    """A removal of all versions."""
    return library.delete(NAME, None, admits)


@pytest.mark.parametrize("first", [overwrite, remove])
@pytest.mark.parametrize("second", [overwrite, remove])
def test_of_two_changes_at_once_that_know_one_state_the_second_is_refused(library, first, second):
    """Nothing is overwritten that its caller did not see, and nothing removed comes back."""
    done, refused = both_at_once(library, first, second)
    assert done in (True, 1)
    assert refused == (False if (first, second) == (remove, remove) else "changed_since")
    left = library.read(NAME)
    assert (left is None) == (first is remove)
    assert left is None or (left.version, left.document) == (1, b"2")
