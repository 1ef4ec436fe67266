"""Cargo: everything that can be carried, as classes of identical units with a lifetime."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from solver.model.instance.clock import Clock
from solver.problem import History, Item, NeedKind, NightSet, Problem
from solver.quantities import fuel_mass_nearest
from solver.requirements import Supplies


class CargoKind(StrEnum):
    """What a class of units is, which decides how its allowed trips are found."""

    ITEM = "item"
    BAG = "bag"
    FULL = "full container"
    OPEN = "open container"
    EMPTY = "empty container"
    SACK = "sack"


@dataclass(frozen=True, slots=True)
class Cargo:
    """`count` identical units, which exist from state `born` at `birthplace`.

    Of an expedition that is under way they exist from the moment on, `spread` over places.
    `dies` is the event by which all still there are used up, at `deathplace`; None when
    they come back to the start. `uses` are (event, place, units) used along the way, the
    death not among them. Mass and volume are those of one unit [g, mL]. A bag holds `sets`
    night sets, a container `fuel_ml`. `contains` are the allergens in a sack of trash.
    """

    index: int
    unit_id: str
    kind: CargoKind
    count: int
    mass_g: int
    volume_ml: int
    born: int
    birthplace: str
    dies: int | None = None
    deathplace: str = ""
    uses: tuple[tuple[int, str, int], ...] = ()
    item: Item | None = None
    cook_group_id: str | None = None
    sets: int = 0
    fuel_ml: int = 0
    night_set: NightSet | None = None
    contains: tuple[str, ...] = ()
    spread: tuple[tuple[str, int], ...] = ()

    @property
    def begins(self) -> tuple[tuple[str, int], ...]:
        """Where units stand in state `born`, and how many."""
        return self.spread or ((self.birthplace, self.count),)

    def is_there(self, state: int) -> bool:
        """Whether units exist in a state, wherever they are."""
        return self.born <= state and (self.dies is None or state < self.dies)

    @property
    def is_stock(self) -> bool:
        """Whether units are counted stock that is used bit by bit, not things to be kept."""
        return self.kind in (CargoKind.BAG, CargoKind.FULL)


def list_cargo(problem: Problem, clock: Clock, needs: Supplies) -> tuple[Cargo, ...]:
    """Everything that any trip of the problem may carry, each class with units at all."""
    found = [
        *_items(problem),
        *_bags(problem, clock, needs),
        *_full_containers(problem, clock, needs),
        *_opened_containers(clock, needs),
        *_sacks(clock, needs),
    ]
    if problem.history is not None:
        found = [*_still_there(found, problem.history, clock)]
    some = [cargo for cargo in found if cargo.count > 0]
    return tuple(replace(cargo, index=index) for index, cargo in enumerate(some))


def _still_there(found: Sequence[Cargo], history: History, clock: Clock) -> Iterator[Cargo]:
    """What exists at the moment or later: the first, where it stands and as much as there is."""
    now = clock.moment(history)
    standing: dict[str, list[tuple[str, int]]] = {}
    for stands in history.standing:
        standing.setdefault(stands.unit_id, []).append((stands.place_id, stands.count))
    for cargo in found:
        if cargo.dies is not None and cargo.dies <= now:
            continue
        if cargo.born > now:
            yield cargo
        elif places := standing.get(cargo.unit_id):
            yield replace(
                cargo,
                count=sum(count for _, count in places),
                born=now,
                birthplace=places[0][0],
                spread=tuple(places),
                uses=tuple(use for use in cargo.uses if use[0] > now),
            )


def _items(problem: Problem) -> Iterator[Cargo]:
    for item in problem.gear:
        if item.need.kind is not NeedKind.WORN:
            yield Cargo(
                index=-1,
                unit_id=item.unit_id,
                kind=CargoKind.ITEM,
                count=item.count,
                mass_g=item.mass_g,
                volume_ml=item.packed_volume_ml,
                born=0,
                birthplace=problem.start_place,
                item=item,
            )


def _bags(problem: Problem, clock: Clock, needs: Supplies) -> Iterator[Cargo]:
    for night_set, count in needs.bags:
        yield Cargo(
            index=-1,
            unit_id=night_set.unit_id,
            kind=CargoKind.BAG,
            count=count,
            mass_g=night_set.gross_g * night_set.sets_per_bag,
            volume_ml=night_set.volume_ml * night_set.sets_per_bag,
            born=0,
            birthplace=problem.start_place,
            uses=tuple(
                (clock.night_event[meal.day], meal.place_id, meal.bags)
                for meal in needs.meals
                if meal.night_set == night_set
            ),
            cook_group_id=night_set.cook_group_id,
            sets=night_set.sets_per_bag,
            night_set=night_set,
        )


def _full_containers(problem: Problem, clock: Clock, needs: Supplies) -> Iterator[Cargo]:
    for container, count in needs.containers:
        yield Cargo(
            index=-1,
            unit_id=container.unit_id,
            kind=CargoKind.FULL,
            count=count,
            mass_g=container.tare_g
            + fuel_mass_nearest(
                volume_ml=container.content_ml, density_g_per_l=problem.fuel_density_g_per_l
            ),
            volume_ml=container.volume_ml,
            born=0,
            birthplace=problem.start_place,
            uses=tuple(
                (clock.night_event[opening.day], opening.place_id, opening.count)
                for burn in needs.burns
                for opening in burn.openings
                if opening.container == container
            ),
            cook_group_id=container.cook_group_id,
            fuel_ml=container.content_ml,
        )


def _opened_containers(clock: Clock, needs: Supplies) -> Iterator[Cargo]:
    for burn in needs.burns:
        for spell in burn.open_spells:
            yield Cargo(
                index=-1,
                unit_id=f"{spell.container.unit_id}/open-{spell.number}",
                kind=CargoKind.OPEN,
                count=1,
                mass_g=spell.mass_g,
                volume_ml=spell.container.volume_ml,
                born=clock.night_event[spell.from_day],
                birthplace=spell.from_place,
                dies=None if spell.to_day is None else clock.night_event[spell.to_day],
                deathplace="" if spell.to_day is None else spell.to_place,
                cook_group_id=spell.container.cook_group_id,
                fuel_ml=spell.left_ml,
            )
        for empty in burn.empties:
            yield Cargo(
                index=-1,
                unit_id=f"{empty.container.unit_id}/empty-{empty.number}",
                kind=CargoKind.EMPTY,
                count=1,
                mass_g=empty.container.tare_g,
                volume_ml=empty.container.volume_ml,
                born=clock.night_event[empty.day],
                birthplace=empty.place_id,
            )


def _sacks(clock: Clock, needs: Supplies) -> Iterator[Cargo]:
    for sack in needs.sacks:
        yield Cargo(
            index=-1,
            unit_id=sack.unit_id,
            kind=CargoKind.SACK,
            count=1,
            mass_g=sack.mass_g,
            volume_ml=sack.volume_ml,
            born=clock.night_event[sack.day],
            birthplace=sack.place_id,
            contains=sack.contains,
        )
