"""Preferences on the loads of one trip, as sums over packs and sleds that should not be positive.

The search counts the soft constraints that are violated and brings their number down. The
checker has its own reading of the same preferences and recounts.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from solver.model.assignment.by_trip import Held
from solver.model.formulation.frame import Frame
from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import sled_carrier
from solver.model.rules.load_caps import on_body_g
from solver.problem import NeedKind, Person, Purpose, Trip
from solver.quantities import share_down

_EQUIPMENT = frozenset({Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT})


@dataclass(frozen=True, slots=True)
class Inequality:
    """`fixed` + Σ weight × mass in a carrier [g] + Σ units of equipment in a carrier ≤ 0.

    `one_g` is by how much the sum falls where a gram too much is gone.
    """

    fixed: int
    masses: tuple[tuple[str, int], ...] = ()
    equipment_in: tuple[str, ...] = ()
    one_g: int = 1


@dataclass(frozen=True, slots=True)
class SoftConstraint:
    """One preference on one trip, kept where all its parts hold; `equipment` are cargoes."""

    rule_id: str
    parts: tuple[Inequality, ...]
    equipment: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class _Mover:
    """A person on a trip: water and lunch in the pack [g], the sled hauled or "" and its tare."""

    person: Person
    on_body_g: int
    sled_id: str
    tare_g: int


def soft_constraints(frame: Frame) -> tuple[tuple[SoftConstraint, ...], ...]:
    """For each trip the preferences on its loads that the request asks."""
    equipment = tuple(_equipment_of(frame.world, trip) for trip in frame.world.timeline.trips)
    return tuple(
        tuple(
            constraint
            for constraint in _of_trip(frame.world, trip, equipment[trip.index])
            if frame.world.problem.asks(constraint.rule_id)
        )
        for trip in frame.world.timeline.trips
    )


def violated(frame: Frame, trip: int, held: Held, of_trip: Sequence[SoftConstraint]) -> int:
    """How many soft constraints of a trip its loads violate [1]."""
    mass_g: dict[str, int] = {}
    for (cargo, carrier_id), units in held.items():
        more_g = units * frame.weight(cargo, trip, of_mass=True)
        mass_g[carrier_id] = mass_g.get(carrier_id, 0) + more_g
    return sum(
        any(_sum(part, constraint.equipment, mass_g, held) > 0 for part in constraint.parts)
        for constraint in of_trip
    )


def _sum(part: Inequality, equipment: frozenset[int], mass_g: dict[str, int], held: Held) -> int:
    total = part.fixed + sum(weight * mass_g.get(at, 0) for at, weight in part.masses)
    if part.equipment_in:
        total += sum(
            n for (cargo, at), n in held.items() if cargo in equipment and at in part.equipment_in
        )
    return total


def _of_trip(world: World, trip: Trip, equipment: frozenset[int]) -> Iterator[SoftConstraint]:
    sleds = {sled.hauler_id: sled for sled in world.problem.sleds if sled.sled_id in trip.sled_ids}
    party = []
    for person_id in trip.person_ids:
        person, sled = world.problem.person(person_id), sleds.get(person_id)
        body_g = on_body_g(world, trip, person)
        if sled is None:
            party.append(_Mover(person, body_g, "", 0))
        else:
            party.append(_Mover(person, body_g, sled_carrier(sled.sled_id), sled.tare_g))
    haulers = [one for one in party if one.sled_id]
    place = world.problem.route.place
    rise_m = place(trip.to_place).elevation_m - place(trip.from_place).elevation_m
    band = _band(world, trip, rise_m)
    if band is not None:
        yield from (_share(one, *band) for one in haulers)
    if trip.leg.traverse:
        percents = (trip.leg.sled_factor_up_percent, _whole(world, "traverse_sled_percent"))
        yield from (_at_most("sled_light_on_traverse", one, percents) for one in haulers)
    ropes = _ropes(party)
    if trip.leg.crevasse_hazard is not None:
        percents = (trip.sled_factor_percent, _whole(world, "lead_sled_percent"))
        leads = [rope[0] for rope in ropes if rope[0].sled_id]
        yield from (_at_most("lead_sled_light", one, percents) for one in leads)
    if rise_m < 0:
        yield from _lasts(ropes)
    yield from _equipment_constraints(ropes, equipment)


def _whole(world: World, name: str) -> int:
    return world.problem.rules.whole(name)


def _band(world: World, trip: Trip, rise_m: int) -> tuple[str, int, int] | None:
    """The rule on the sled's share on a trip, with its least and most [%]."""
    angle_deg, number = trip.leg.steepest_deg, world.problem.rules.number
    if angle_deg is None:
        return None
    gentle = angle_deg >= number("gentle_slope_deg")
    steep = angle_deg >= number("steep_slope_deg")
    if rise_m < 0:
        rule_id, name = "sled_share_downhill", "down" if gentle and not steep else ""
    elif angle_deg > number("steepest_sled_deg"):
        rule_id, name = "sled_share_uphill", ""
    else:
        rule_id, name = "sled_share_uphill", "steep" if steep else "gentle" if gentle else "flat"
    if not name:
        return None
    least = _whole(world, f"{name}_least_sled_percent")
    return rule_id, least, _whole(world, f"{name}_most_sled_percent")


def _share(one: _Mover, rule_id: str, least: int, most: int) -> SoftConstraint:
    """Least % × (pack + sled) ≤ 100 × sled ≤ most % × (pack + sled)."""
    tare_g, pack_g = one.tare_g, one.on_body_g
    pack_id, sled_id = one.person.person_id, one.sled_id
    return SoftConstraint(
        rule_id,
        (
            Inequality(
                least * (pack_g + tare_g) - 100 * tare_g,
                ((pack_id, least), (sled_id, least - 100)),
                one_g=100,
            ),
            Inequality(
                100 * tare_g - most * (pack_g + tare_g),
                ((pack_id, -most), (sled_id, 100 - most)),
                one_g=100,
            ),
        ),
    )


def _at_most(rule_id: str, one: _Mover, percents: tuple[int, int]) -> SoftConstraint:
    """Sled gross ≤ the hauler's cap times the leg's factor times the rule's share."""
    limit_g = one.person.caps.sled_g
    for percent in percents:
        limit_g = share_down(amount=limit_g, percent=percent)
    return SoftConstraint(rule_id, (Inequality(one.tare_g - limit_g, ((one.sled_id, 1),)),))


def _ropes(party: list[_Mover]) -> list[list[_Mover]]:
    """Rope teams, each with its lead first: the first guide, else the first of the roster."""
    teams: dict[str, list[_Mover]] = {}
    for one in party:
        teams.setdefault(one.person.rope_team_id, []).append(one)
    ropes = []
    for team in teams.values():
        lead = next((number for number, one in enumerate(team) if one.person.is_guide), 0)
        ropes.append([team[lead], *team[:lead], *team[lead + 1 :]])
    return ropes


def _lasts(ropes: list[list[_Mover]]) -> Iterator[SoftConstraint]:
    """The last sled of each rope ≤ each other sled of it."""
    for rope in ropes:
        last, others = rope[-1], [one for one in rope[:-1] if one.sled_id]
        if last.sled_id and others:
            yield SoftConstraint(
                "last_on_rope_light",
                tuple(
                    Inequality(
                        last.tare_g - one.tare_g,
                        ((last.sled_id, 1), (one.sled_id, -1)),
                    )
                    for one in others
                ),
            )


def _equipment_constraints(
    ropes: list[list[_Mover]], equipment: frozenset[int]
) -> Iterator[SoftConstraint]:
    """No equipment with anybody between the ends of a rope who is no guide."""
    between = [one for rope in ropes for one in rope[1:-1] if not one.person.is_guide]
    for one in between if equipment else ():
        equipment_in = (one.person.person_id, *((one.sled_id,) if one.sled_id else ()))
        yield SoftConstraint(
            "guides_carry_rescue_kit", (Inequality(0, equipment_in=equipment_in),), equipment
        )


def _equipment_of(world: World, trip: Trip) -> frozenset[int]:
    """The shared rope, rescue and medical equipment that must ride on a trip."""
    return frozenset(
        cargo.index
        for cargo in world.cargo
        if cargo.item is not None
        and cargo.item.purpose in _EQUIPMENT
        and cargo.item.owner_id is None
        and cargo.item.need.kind is NeedKind.EVERY_TRIP
        and trip in need_of(world, cargo.item).trips_to_ride()
    )
