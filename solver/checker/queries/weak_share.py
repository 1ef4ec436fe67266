"""What the people with the least cap carry compared with the party, and why, if it is more.

Shares are mean load fractions over all loads to come. If theirs is above the party's, the reason is
the first of three. What only they may carry is already more. Or nobody else can have a shared thing
of theirs under the hard rules and the trip's largest fraction. Or somebody can, but a preference or
too many swaps stand against it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from statistics import fmean

from solver.checker.ledger.loads import Burden, Carrier, TripRecord
from solver.checker.ledger.replay import Replay, replay
from solver.checker.queries.fractions import load_fraction
from solver.plan import Finding, Load, Plan, Stowed
from solver.problem.weakest import least_cap_g, weakest_of
from solver.rulebook.goals import HARD_FROM

Judges = tuple[tuple[str, Callable[[Replay], Iterator[Finding]]], ...]

_MOST_TRIED = 6
"""How many hand-overs are tried, heaviest first [1]."""


@dataclass(frozen=True, slots=True)
class HandOver:
    """A unit of a person with the least cap that another could have on a trip."""

    day: int
    step: int
    unit_id: str
    from_person: str
    to_person: str


@dataclass(frozen=True, slots=True)
class WeakShare:
    """Mean load fractions [1/10,000] of the people with the least cap, and of the whole party.

    `own` is what their own kit, what is pinned to them, water, lunch and an empty sled come to.
    `could_go` is a hand-over that breaks no hard rule, None where the mean is not above the
    party's, where `own` is the reason, or where none of the `tried` ones is possible.
    """

    person_ids: tuple[str, ...]
    cap_g: int
    mean: float
    party: float
    own: float
    could_go: HandOver | None = None
    tried: int = 0

    @property
    def is_above(self) -> bool:
        """Whether they carry a larger share than the party."""
        return self.mean > self.party

    @property
    def own_forces_it(self) -> bool:
        """Whether what nobody else may carry comes to more than the party's mean by itself."""
        return self.is_above and self.own >= self.party


def weak_share(replayed: Replay, judges: Judges) -> WeakShare | None:
    """The shares of a plan that breaks none of the `judges`; None where all have the same cap."""
    roster = replayed.facts.problem.roster
    weak = weakest_of(roster)
    loads = [(record, burden) for record in replayed.to_come for burden in record.burdens]
    theirs = [(r, b) for r, b in loads if b.person.person_id in weak]
    if not theirs:
        return None
    problem = replayed.facts.problem
    found = WeakShare(
        person_ids=tuple(p.person_id for p in roster if p.person_id in weak),
        cap_g=min(map(least_cap_g, roster)),
        mean=fmean(load_fraction(problem, b, r.trip) for r, b in theirs),
        party=fmean(load_fraction(problem, b, r.trip) for r, b in loads),
        own=fmean(load_fraction(problem, _own(replayed, r, b), r.trip) for r, b in theirs),
    )
    if not found.is_above or found.own_forces_it:
        return found
    tried = 0
    for hand_over, plan in _hand_overs(replayed, theirs):
        if tried == _MOST_TRIED:
            break
        tried += 1
        other = replay(replayed.facts, plan)
        if not any(True for _, judge in judges for _ in judge(other)):
            return replace(found, could_go=hand_over, tried=tried)
    return replace(found, tried=tried)


def _own(replayed: Replay, record: TripRecord, burden: Burden) -> Burden:
    """A burden with nothing in it but what the person must have there."""
    pack, sled = (_must(replayed, record, c) for c in (burden.pack, burden.on_sled))
    return replace(burden, pack=pack, on_sled=sled)


def _must(replayed: Replay, record: TripRecord, carrier: Carrier) -> Carrier:
    who, on_sled = carrier.person_id, carrier.sled_id is not None
    pinned = {
        pin.unit_id: pin.count
        for pin in replayed.facts.problem.pins
        if (pin.day, pin.step, pin.person_id) == (record.trip.day, record.trip.step, who)
        and pin.on_sled is on_sled
    }
    mass_g = 0
    for unit_id, count in carrier.counts.items():
        item = replayed.facts.units[unit_id].item
        is_own = item is not None and item.owner_id == who
        kept = count if is_own else min(count, pinned.get(unit_id, 0))
        mass_g += kept * record.weights.get(unit_id, (0, 0))[0]
    return replace(carrier, mass_g=mass_g)


def _hand_overs(
    replayed: Replay, theirs: list[tuple[TripRecord, Burden]]
) -> Iterator[tuple[HandOver, Plan]]:
    """Single units that somebody else of the trip has room for, the heaviest first."""
    problem, found = replayed.facts.problem, []
    for record, burden in theirs:
        most = max(HARD_FROM, *(load_fraction(problem, b, record.trip) for b in record.burdens))
        for unit_id in burden.pack.counts:
            item = replayed.facts.units[unit_id].item
            mass_g, _ = record.weights.get(unit_id, (0, 0))
            if (item is not None and item.owner_id is not None) or not mass_g:
                continue
            for other in record.burdens:
                more = replace(other, pack=replace(other.pack, mass_g=other.pack.mass_g + mass_g))
                if other is not burden and load_fraction(problem, more, record.trip) <= most:
                    found.append((-mass_g, record, unit_id, burden, other))
    for _, record, unit_id, burden, other in sorted(found, key=lambda one: one[0]):
        who, to = burden.person.person_id, other.person.person_id
        hand_over = HandOver(record.trip.day, record.trip.step, unit_id, who, to)
        plan = _handed(replayed.plan, record, hand_over)
        if plan is not None:
            yield hand_over, plan


def _handed(plan: Plan, record: TripRecord, one: HandOver) -> Plan | None:
    """The plan with a unit out of one pack in another."""
    trips = list(plan.trips)
    for at, trip in enumerate(trips):
        if trip is not record.planned:
            continue
        units = [u for load in trip.loads if load.person_id == one.from_person for u in load.pack]
        unit = next((u for u in units if u.unit_id == one.unit_id), None)
        if unit is None:
            return None
        trips[at] = replace(trip, loads=tuple(_changed(load, unit, one) for load in trip.loads))
        return replace(plan, trips=tuple(trips))
    return None


def _changed(load: Load, unit: Stowed, one: HandOver) -> Load:
    if load.person_id == one.from_person:
        left = (replace(u, count=u.count - (u is unit)) for u in load.pack)
        return replace(load, pack=tuple(u for u in left if u.count))
    if load.person_id == one.to_person:
        return replace(load, pack=(*load.pack, replace(unit, count=1)))
    return load
