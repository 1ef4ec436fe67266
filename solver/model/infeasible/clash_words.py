"""A clash in trade words: each statement with what it limits or asks for, and its numbers."""

from __future__ import annotations

import math

from solver.diagnosis import ClashMember, Reach
from solver.model.formulation.build_frame import rows_of
from solver.model.infeasible.clash import Clash, frame_of
from solver.model.infeasible.statements import Statement, cargoes_of
from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.solvers.relaxation_refusals import least_excess
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.rulebook import rule

_SECONDS = 5.0
"""Time for one question to the relaxation [s]."""

_MOST_NAMES = 6
"""How many people or things a sentence names [1]."""

_HOLDS = {
    "pack_cap_held": "may weigh",
    "pack_volume_held": "hold",
    "sled_cap_held": "may weigh",
    "sled_limit_held": "may weigh",
    "sled_volume_held": "hold",
    "total_cap_held": "may weigh",
    "load_limit_held": "may weigh",
    "first_load_within_plan": "may weigh on the first day",
}

_WHAT = {
    "pack_cap_held": ("the pack", "the packs"),
    "pack_volume_held": ("the pack", "the packs"),
    "sled_cap_held": ("the sled", "the sleds"),
    "sled_limit_held": ("the sled", "the sleds"),
    "sled_volume_held": ("the sled", "the sleds"),
}


def tell_clash(world: World, clash: Clash) -> tuple[ClashMember, ...]:
    """Each statement of a clash in words."""
    return tuple(
        _cap_member(world, clash, statement, needed=needed)
        if statement.is_of_caps
        else _thing_member(world, statement, needed=needed)
        for statement, needed in zip(clash.statements, clash.needed, strict=True)
    )


def reaches_of(world: World, clash: Clash) -> tuple[Reach, ...]:
    """What each further proof leans on."""
    trips, cargo = world.timeline.trips, world.cargo
    return tuple(
        Reach(
            blamed.unit_ids
            | {cargo[one].unit_id for row in blamed.rows for one in cargoes_of(row)},
            frozenset(
                (trips[row.trip].from_place, trips[row.trip].to_place) for row in blamed.caps
            ),
        )
        for blamed in clash.others
    )


def _cap_member(world: World, clash: Clash, statement: Statement, *, needed: bool) -> ClashMember:
    rows = [row for row in statement.rows if isinstance(row, LoadRow)]
    first = rows[0]
    unit = "kg" if first.of_mass else "L"
    trip = world.timeline.trips[first.trip]
    cap = sum(row.cap for row in rows)
    over = _over(world, clash, rows)
    one, many = _WHAT.get(statement.rule_id, ("the load", "the loads"))
    verb = _HOLDS.get(statement.rule_id, "may weigh")
    verb = verb + "s" if len(rows) == 1 and verb == "hold" else verb
    sentence = (
        f"Day {trip.day}, {trip.from_place} to {trip.to_place}: "
        f"{one if len(rows) == 1 else many} of {_names(statement.person_ids)} {verb} "
        f"{cap / 1000:.1f} {unit}{' in all' if len(rows) > 1 else ''}"
    )
    if over is not None:
        sentence += (
            f"; what the other requirements bring there comes to {_up(cap / 1000 + over)} {unit}"
        )
    where = statement.about
    if len(rows) == 1:
        where = (("person", first.person_id), *where)
    return ClashMember(
        statement.rule_id,
        f"{sentence}.",
        where,
        needed,
        person_ids=statement.person_ids,
        amount=None if over is None else math.ceil(1000 * over - 1e-3),
        unit="" if over is None else ("g" if first.of_mass else "mL"),
    )


def _over(world: World, clash: Clash, rows: list[LoadRow]) -> float | None:
    """By how much these caps must be passed when everything else of the clash holds [kg, L]."""
    frame = frame_of(world, rows_of(world), clash.statements)
    relaxation = build_relaxation(frame, with_excess=True)
    if relaxation.excess is None or relaxation.impossible is not None:
        return None
    asked = set(rows)
    for row, over in relaxation.excess:
        if row not in asked:
            relaxation.simplex.limit(over, 0.0)
    found = least_excess(relaxation, seconds=_SECONDS, counts=asked.__contains__)
    return None if found is None else sum(amount for _, amount in found)


def _thing_member(world: World, statement: Statement, *, needed: bool) -> ClashMember:
    units = tuple(dict.fromkeys(world.cargo[cargo].unit_id for cargo in statement.cargoes))
    kilograms, litres = _size(world, statement)
    what = f" It is about {_names(units)}: {kilograms:.1f} kg, {litres:.1f} L." if units else ""
    place = dict(statement.about).get("place")
    begin = f"At {place}: " if place else ""
    return ClashMember(
        statement.rule_id,
        f"{begin}{rule(statement.rule_id).sentence}{what}",
        statement.about,
        needed,
        unit_ids=units,
    )


def _size(world: World, statement: Statement) -> tuple[float, float]:
    """What all units of the things weigh and take [kg, L]; of an open can the fullest counts."""
    size: dict[str, tuple[int, int]] = {}
    for cargo in statement.cargoes:
        thing = world.cargo[cargo]
        mass_g, volume_ml = size.get(thing.unit_id, (0, 0))
        size[thing.unit_id] = (
            max(mass_g, thing.count * thing.mass_g),
            max(volume_ml, thing.count * thing.volume_ml),
        )
    return (
        sum(mass_g for mass_g, _ in size.values()) / 1000,
        sum(volume_ml for _, volume_ml in size.values()) / 1000,
    )


def _names(ids: tuple[str, ...]) -> str:
    """A few names in a sentence, and how many more there are."""
    shown = list(ids[:_MOST_NAMES])
    if len(ids) > _MOST_NAMES:
        return f"{', '.join(shown)} and {len(ids) - _MOST_NAMES} more"
    return " and ".join([*([", ".join(shown[:-1])] if len(shown) > 1 else []), shown[-1]])


def _up(amount: float) -> str:
    return f"{math.ceil(10 * amount - 1e-3) / 10:.1f}"
