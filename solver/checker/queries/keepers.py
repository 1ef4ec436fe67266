"""Keepers: who has each single piece of kit, and each bundle of small alike things."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.checker.ledger.loads import Burden, Carrier, TripRecord
from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import largest_fractions, load_fraction
from solver.plan import Elsewhere, ElsewhereReason, Keeper
from solver.problem import Item
from solver.quantities import share_down

_Has = list[tuple[TripRecord, dict[str, int]]]
"""The trips on which a thing rides, each with how many units each person has there."""


@once
def keepers(replay: Replay) -> tuple[Keeper, ...]:
    """The keeper of each kept thing that rides, as the loads have it."""
    kept = []
    for item in replay.facts.problem.gear:
        if item.is_single or item.is_bundle:
            has = _who_has(replay, item.unit_id)
            if has:
                kept.append(_keeper(replay, item, has))
    return tuple(kept)


def _who_has(replay: Replay, unit_id: str) -> _Has:
    has: _Has = []
    for record in replay.to_come:
        with_them: dict[str, int] = {}
        for carrier in record.carriers:
            if carrier.counts[unit_id] > 0:
                who = carrier.person_id
                with_them[who] = with_them.get(who, 0) + carrier.counts[unit_id]
        if with_them:
            has.append((record, with_them))
    return has


def _keeper(replay: Replay, item: Item, has: _Has) -> Keeper:
    keeper_id = item.keeper_id or _most_often(replay, has)
    return Keeper(
        item.unit_id,
        keeper_id,
        item.keeper_id is not None,
        from_day=has[0][0].trip.day,
        to_day=has[-1][0].trip.day,
        trips=len(has),
        elsewhere=tuple(_elsewhere(replay, item.unit_id, keeper_id, has)),
    )


def _most_often(replay: Replay, has: _Has) -> str:
    """Whoever has most units over all trips; of equals who is first to have any."""
    units: dict[str, int] = {}
    for _, with_them in has:
        for who in _by_roster(replay, with_them):
            units[who] = units.get(who, 0) + with_them[who]
    # A dict keeps the order in which people first had it, and max takes the first of equals.
    return max(units, key=lambda who: units[who])


def _by_roster(replay: Replay, with_them: dict[str, int]) -> list[str]:
    """People in the order of the roster; whoever a plan makes up comes last."""
    known = [person.person_id for person in replay.facts.problem.everybody]
    return [p for p in known if p in with_them] + sorted(with_them.keys() - set(known))


def _elsewhere(replay: Replay, unit_id: str, keeper_id: str, has: _Has) -> Iterator[Elsewhere]:
    peak = max(largest_fractions(replay), default=0)
    for record, with_them in has:
        for who in _by_roster(replay, with_them):
            if who != keeper_id:
                trip, units = record.trip, with_them[who]
                yield Elsewhere(
                    trip.day,
                    trip.step,
                    trip.from_place,
                    trip.to_place,
                    who,
                    units,
                    _reason(replay, record, keeper_id, (unit_id, units), peak),
                )


def _reason(
    replay: Replay, record: TripRecord, keeper_id: str, more: tuple[str, int], peak: int
) -> ElsewhereReason:
    burden = next((b for b in record.burdens if b.person.person_id == keeper_id), None)
    if burden is None:
        return ElsewhereReason.NOT_ON_TRIP
    mass_g, volume_ml = record.weights.get(more[0], (0, 0))
    with_it = [replace(burden, pack=_fuller(burden.pack, more[1], mass_g, volume_ml))]
    if burden.sled is not None:
        on_sled = _fuller(burden.on_sled, more[1], mass_g, volume_ml)
        with_it.append(replace(burden, on_sled=on_sled))
    problem = replay.facts.problem
    light = [one for one in with_it if load_fraction(problem, one, record.trip) <= peak]
    if not light:
        return ElsewhereReason.LOAD
    if any(_has_room(replay, one) for one in light):
        return ElsewhereReason.OTHER
    return ElsewhereReason.VOLUME


def _fuller(carrier: Carrier, units: int, mass_g: int, volume_ml: int) -> Carrier:
    return replace(
        carrier,
        mass_g=carrier.mass_g + units * mass_g,
        volume_ml=carrier.volume_ml + units * volume_ml,
    )


def _has_room(replay: Replay, burden: Burden) -> bool:
    """Whether what is in a pack and on a sled fits; a volume that is waived holds nothing back."""
    problem = replay.facts.problem
    percent = 100 + problem.rules.pack_volume_allowance_percent
    in_pack_ml = share_down(amount=burden.person.pack_volume_ml, percent=percent)
    if problem.must_keep("pack_volume_held") and burden.pack.volume_ml > in_pack_ml:
        return False
    return (
        burden.sled is None
        or not problem.must_keep("sled_volume_held")
        or burden.on_sled.volume_ml <= burden.sled.volume_ml
    )
