"""Once: work on one frozen object is done once and never goes over to another."""

from dataclasses import dataclass, field, replace

from solver.checker.ledger.once import Memory, once


@dataclass(frozen=True)
class Owner:
    """Something to work on."""

    number: int
    memory: Memory = field(init=False, default_factory=dict, compare=False, repr=False)


def _counted():
    calls = []

    @once
    def double(owner: Owner) -> int:
        calls.append(owner.number)
        return 2 * owner.number

    return double, calls


def test_work_on_one_object_is_done_once():
    """The second question to the same object is answered without any work."""
    double, calls = _counted()
    owner = Owner(3)
    assert (double(owner), double(owner), calls) == (6, 6, [3])


def test_equal_objects_and_copies_are_worked_on_each_for_itself():
    """Another object with the same content, or a changed copy, starts from nothing."""
    double, calls = _counted()
    owner = Owner(3)
    assert (double(owner), double(Owner(3)), double(replace(owner, number=4))) == (6, 6, 8)
    assert calls == [3, 3, 4]


def test_two_functions_do_not_share_an_answer():
    """Each function remembers under its own name only."""
    double, _ = _counted()
    text = once(lambda owner: str(owner.number))
    owner = Owner(3)
    assert (double(owner), text(owner)) == (6, "3")
