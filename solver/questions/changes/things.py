"""Things left at home, sent ahead or fetched later; more gear, containers, bags; fewer reserves."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from solver.diagnosis import ChangeKind
from solver.problem import Item, NeedKind, Problem, Reserve
from solver.questions.changes.change import Change, fixed


def thing_changes(problem: Problem) -> Iterator[Change]:
    """Each thing sent ahead or fetched later where it is not yet, then each left at home."""
    for item in problem.gear:
        if item.need.from_place is not None and not item.need.may_go_ahead:
            yield _sent_ahead(item)
        if item.need.kind is NeedKind.AT_PLACE and not item.need.may_follow:
            yield _fetched_later(item)
    for item in sorted(problem.gear, key=lambda item: item.mass_g):
        if item.need.kind is not NeedKind.WORN and item.mass_g + item.volume_ml > 0:
            yield _left(item)


def gear_changes(problem: Problem) -> Iterator[Change]:
    """One more of each shared thing that is not worn, the lightest first."""
    for item in sorted(problem.gear, key=lambda item: item.mass_g):
        if item.owner_id is None and item.need.kind is not NeedKind.WORN:
            yield _one_more(item)


def stock_changes(problem: Problem) -> Iterator[Change]:
    """One more of each kind of container and bag whose number is given."""
    for group in problem.cook_groups:
        for container in group.containers:
            if container.count is not None:
                yield _more_containers(container.unit_id)
    for night_set in problem.night_sets:
        if night_set.bag_count is not None:
            yield _more_bags(night_set.unit_id)


def reserve_changes(problem: Problem) -> Iterator[Change]:
    """One night less of each reserve."""
    for reserve in problem.reserves:
        if reserve.nights > 0:
            yield _less_reserve(reserve)


def _sent_ahead(item: Item) -> Change:
    return Change(
        ChangeKind.SEND_AHEAD,
        fixed(f"let {item.unit_id} be sent ahead of its people"),
        lambda problem, _: _with_item(
            problem, item, replace(item, need=replace(item.need, may_go_ahead=True))
        ),
        about=(("unit", item.unit_id),),
    )


def _fetched_later(item: Item) -> Change:
    need = replace(item.need, may_follow=True, may_go_ahead=True)
    return Change(
        ChangeKind.SEND_AHEAD,
        fixed(f"let {item.unit_id} follow, so that it may be fetched after the move"),
        lambda problem, _: _with_item(problem, item, replace(item, need=need)),
        about=(("unit", item.unit_id),),
        burden=1,
    )


def _left(item: Item) -> Change:
    """One thing left at home, or some of several that are alike."""

    def apply(problem: Problem, less: int) -> Problem:
        if item.count > max(less, 1):
            return _with_item(problem, item, replace(item, count=item.count - less))
        return replace(problem, gear=tuple(i for i in problem.gear if i.unit_id != item.unit_id))

    kilograms = item.mass_g / 1000
    if item.count == 1:
        say, unit = fixed(f"leave {item.unit_id} at home ({kilograms:.2f} kg)"), ""
    else:
        say, unit = _some_left(item, kilograms), "units"
    return Change(
        ChangeKind.LEAVE,
        say,
        apply,
        unit,
        about=(("unit", item.unit_id),),
        burden=item.mass_g,
        most=item.count,
    )


def _one_more(item: Item) -> Change:
    return Change(
        ChangeKind.TAKE_MORE,
        lambda more: f"take {more} more of {item.unit_id} ({more * item.mass_g / 1000:.2f} kg)",
        lambda problem, more: _with_item(problem, item, replace(item, count=item.count + more)),
        "units",
        about=(("unit", item.unit_id),),
        burden=item.mass_g,
        most=1,
    )


def _some_left(item: Item, kilograms: float) -> Callable[[int], str]:
    return lambda less: (
        f"leave {less} of {item.count} {item.unit_id} at home ({less * kilograms:.2f} kg)"
    )


def _with_item(problem: Problem, item: Item, other: Item) -> Problem:
    return replace(
        problem, gear=tuple(other if i.unit_id == item.unit_id else i for i in problem.gear)
    )


def _more_containers(unit_id: str) -> Change:
    def apply(problem: Problem, more: int) -> Problem:
        groups = tuple(
            replace(
                group,
                containers=tuple(
                    replace(c, count=(c.count or 0) + more) if c.unit_id == unit_id else c
                    for c in group.containers
                ),
            )
            for group in problem.cook_groups
        )
        return replace(problem, cook_groups=groups)

    return Change(
        ChangeKind.TAKE_MORE,
        lambda more: f"take {more} more of {unit_id}",
        apply,
        "units",
        (("unit", unit_id),),
    )


def _more_bags(unit_id: str) -> Change:
    def apply(problem: Problem, more: int) -> Problem:
        sets = tuple(
            replace(s, bag_count=(s.bag_count or 0) + more) if s.unit_id == unit_id else s
            for s in problem.night_sets
        )
        return replace(problem, night_sets=sets)

    return Change(
        ChangeKind.TAKE_MORE,
        lambda more: f"take {more} more bags of {unit_id}",
        apply,
        "units",
        (("unit", unit_id),),
    )


def _less_reserve(reserve: Reserve) -> Change:
    def apply(problem: Problem, _: int) -> Problem:
        reserves = tuple(
            replace(r, nights=r.nights - 1) if r == reserve else r
            for r in problem.reserves
            if r != reserve or r.nights > 1
        )
        return replace(problem, reserves=reserves)

    kind = reserve.kind.value.replace("_", " ")
    return Change(
        ChangeKind.RESERVE,
        fixed(
            f"hold {reserve.nights - 1} instead of {reserve.nights} nights of {kind} reserve at "
            f"{reserve.place_id} for {reserve.cook_group_id}"
        ),
        apply,
        about=(("place", reserve.place_id), ("cook_group", reserve.cook_group_id)),
    )
