"""The lives of the fuel containers: which is opened when and where, and what is left in it."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.checker.ledger.meals import Meal
from solver.problem import Container, CookGroup, History, Problem
from solver.quantities import share_up


@dataclass(slots=True)
class OpenContainer:
    """One container from the night that opens it; `number` counts its group's openings.

    `left_ml` holds what is left after each night [mL], by day, while something is.
    """

    container: Container
    number: int
    opened_day: int
    opened_at: str
    left_ml: dict[int, int] = field(default_factory=dict)
    emptied_day: int | None = None
    emptied_at: str = ""

    @property
    def open_id(self) -> str:
        """How a plan names it while something is left in it."""
        return f"{self.container.unit_id}/open-{self.number}"

    @property
    def empty_id(self) -> str:
        """How a plan names it once it is empty."""
        return f"{self.container.unit_id}/empty-{self.number}"


@dataclass(frozen=True, slots=True)
class LackingFuel:
    """Fuel that a cook group would need on a night when all its containers are used up."""

    cook_group_id: str
    day: int
    place_id: str
    missing_ml: int


@dataclass(slots=True)
class Burning:
    """What becomes of one kitchen's containers over the whole trip."""

    opened: list[OpenContainer]
    lacking: list[LackingFuel]


@dataclass(slots=True)
class _Unopened:
    """A kind of container and how many are not opened yet, None for any number."""

    kind: Container
    count: int | None


def burn(problem: Problem, group: CookGroup, meals: tuple[Meal, ...]) -> Burning:
    """Burn each night's fuel: first what is open, then container after container as listed.

    A kitchen burns for its guests, too, each group's share rounded up; guests burn nothing.

    Which container is opened when follows from the calendar alone: a plan that does not have
    it there is found short, and burns it all the same, so that one fault does not shift all later
    openings.
    """
    burning = Burning([], [])
    unopened = [_Unopened(kind, kind.count) for kind in group.containers if kind.content_ml > 0]
    current: OpenContainer | None = None
    left_ml = 0
    guests = {g.cook_group_id for g in problem.cook_groups if g.kitchen_of == group.cook_group_id}
    counts = problem.history.chain if problem.history is not None else ()
    burns_more = _burns_more(counts, group)
    for meal in meals:
        if group.kitchen_of or meal.cook_group_id != group.cook_group_id:
            continue
        fed = (m for m in meals if m.day == meal.day and m.cook_group_id in guests)
        for history in counts:
            if meal.day == history.nights + 1:
                _take_lost(unopened, history)
        need_ml = sum(_burnt_ml(problem, each) for each in (meal, *fed))
        need_ml += burns_more.get(meal.day, 0)
        while need_ml > 0:
            if current is None:
                kind = _next_kind(unopened)
                if kind is None:
                    burning.lacking.append(
                        LackingFuel(group.cook_group_id, meal.day, meal.place_id, need_ml)
                    )
                    break
                number = len(burning.opened) + 1
                current = OpenContainer(kind, number, meal.day, meal.place_id)
                left_ml = kind.content_ml
                burning.opened.append(current)
            burnt_ml = min(left_ml, need_ml)
            left_ml -= burnt_ml
            need_ml -= burnt_ml
            if left_ml == 0:
                current.emptied_day, current.emptied_at = meal.day, meal.place_id
                current = None
        if current is not None:
            current.left_ml[meal.day] = left_ml
    return burning


def _burnt_ml(problem: Problem, meal: Meal) -> int:
    """What one meal takes, with the margin, rounded up [mL]."""
    return share_up(
        amount=meal.people * meal.night_set.fuel_ml, percent=100 + problem.fuel_margin_percent
    )


def _burns_more(counts: tuple[History, ...], group: CookGroup) -> dict[int, int]:
    """Fuel burnt beyond the plan, by the day of the night that it is counted with [mL]."""
    more: dict[int, int] = {}
    for history in counts:
        night = max(history.nights, 1)
        more[night] = more.get(night, 0) + history.more_burnt_ml(group.cook_group_id)
    return more


def _take_lost(unopened: list[_Unopened], history: History) -> None:
    """Take full containers that were lost off those that can still be opened."""
    for entry in unopened:
        if entry.count is not None:
            entry.count -= history.lost_then(entry.kind.unit_id)


def _next_kind(unopened: list[_Unopened]) -> Container | None:
    """Take one of the first kind of which any is left; None when all are used up."""
    for entry in unopened:
        if entry.count is None:
            return entry.kind
        if entry.count > 0:
            entry.count -= 1
            return entry.kind
    return None
