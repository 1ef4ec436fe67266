"""What changes hands where, and why.

A thing changes hands when somebody has more of it than on the trip before on which it rode, and
somebody else has less. Somebody who takes three more alike bags takes them from nobody.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any

from service.reports.paper.things import Things, by_unit, counts_of

Document = dict[str, Any]

FULL = 1.0
_DECIMALS = 4
"""Decimals of a share of a cap in an answer [1]."""


@dataclass(frozen=True, slots=True)
class HandOver:
    """So many of one thing that one person sets down and another takes up before a trip."""

    day: int
    step: int
    place: str
    unit_id: str
    count: int
    giver: str
    taker: str
    since_day: int
    reason: str


Name = Callable[[str], str]
"""How a person is called in a reason."""


def hand_overs(outcome: Document, person: Name = str) -> tuple[HandOver, ...]:
    """All hand-overs of a solved outcome, trip by trip; sacks of waste are left out."""
    return tuple(_hand_overs(outcome, person))


def _hand_overs(outcome: Document, person: Name) -> Iterator[HandOver]:
    plan = outcome["plan"]
    things = Things(plan)
    peak = outcome["peak"]["load_fraction"] if outcome["peak"] else FULL
    before: dict[str, tuple[int, dict[str, int]]] = {}
    for trip in plan["trips"]:
        for unit_id, now in by_unit(trip).items():
            since_day, then = before.get(unit_id, (0, now))
            before[unit_id] = trip["day"], now
            if things.kind(unit_id) == "waste":
                continue
            for giver, taker, count in _pairs(then, now):
                reason = _reason(trip, unit_id, giver, taker, peak, person=person)
                yield HandOver(
                    trip["day"],
                    trip["step"],
                    trip["from"],
                    unit_id,
                    count,
                    giver,
                    taker,
                    since_day,
                    reason,
                )


def _pairs(then: dict[str, int], now: dict[str, int]) -> Iterator[tuple[str, str, int]]:
    """Who gives how many to whom, in the order of the loads."""
    more = {who: n for who in now if (n := now[who] - then.get(who, 0)) > 0}
    fewer = {who: n for who in then if (n := then[who] - now.get(who, 0)) > 0}
    for taker, giver in product(more, fewer):
        count = min(more[taker], fewer[giver])
        if count:
            more[taker] -= count
            fewer[giver] -= count
            yield giver, taker, count


def _reason(
    trip: Document, unit_id: str, giver: str, taker: str, peak: float, *, person: Name
) -> str:
    """Why the giver does not have it on a trip, from what the loads show."""
    loads = {load["person_id"]: load for load in trip["loads"]}
    if giver not in loads:
        return f"{person(giver)} is not on this trip"
    shares = (loads[giver]["load_fraction"], loads[taker]["load_fraction"])
    # An answer has four decimals of a share, and so have the peak and the loads here.
    with_it = round(_share_with(loads[giver], _each_kg(loads[taker], unit_id)), _DECIMALS)
    if with_it > FULL:
        return f"too heavy for {person(giver)}: {_apart(with_it, FULL)[0]} of the cap with it"
    if with_it > peak:
        more, most = _apart(with_it, peak)
        return f"{person(giver)} would carry {more}, more than the peak of {most}"
    if shares[0] > shares[1]:
        mine, theirs = _apart(*shares)
        return f"{person(giver)} carries {mine}, {person(taker)} {theirs}"
    return "not for its mass: room, things kept apart, or the balance of loads"


def _apart(share: float, other: float) -> tuple[str, str]:
    """Two shares in per cent, with as many decimals as it takes to tell them apart."""
    for decimals in range(_DECIMALS - 2):
        first, second = f"{share:.{decimals}%}", f"{other:.{decimals}%}"
        if first != second:
            return first, second
    return f"{share:.{_DECIMALS - 2}%}", f"{other:.{_DECIMALS - 2}%}"


def _each_kg(load: Document, unit_id: str) -> float:
    return next(
        float(u["each_kg"]) for u in (*load["pack"], *load["sled"]) if u["unit_id"] == unit_id
    )


def _share_with(load: Document, kg: float) -> float:
    """The share of a cap with one more thing, the lesser of pack and sled."""
    ways = [_share(load["pack_kg"] + kg, load["pack_cap_kg"])]
    if load["sled_id"] is not None:
        ways.append(_share(load["sled_kg"] + kg, load["sled_cap_kg"]))
    if load["load_limit_kg"] is not None:
        return max(min(ways), _share(load["total_kg"] + kg, load["load_limit_kg"]))
    return max(min(ways), float(load["load_fraction"]))


def _share(kg: float, cap_kg: float) -> float:
    return kg / cap_kg if cap_kg else 2.0


def together(given: tuple[HandOver, ...]) -> Iterator[tuple[HandOver, dict[str, int]]]:
    """Hand-overs at one time between the same two for one reason, with all things of them."""
    seen: dict[tuple[object, ...], tuple[HandOver, list[Document]]] = {}
    for one in given:
        key = (one.day, one.step, one.place, one.giver, one.taker, one.since_day, one.reason)
        unit = {"unit_id": one.unit_id, "count": one.count}
        seen.setdefault(key, (one, []))[1].append(unit)
    return ((first, counts_of(units)) for first, units in seen.values())
