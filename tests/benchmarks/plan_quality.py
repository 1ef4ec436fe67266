"""What a plan is like beside its peak: figures of a plan that is replayed by the checker."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from statistics import mean

from solver.checker.ledger.facts import Facts, read_facts
from solver.checker.ledger.loads import Carrier
from solver.checker.ledger.replay import Replay, replay
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.fractions import largest_fractions, load_fraction
from solver.checker.queries.swaps import swaps
from solver.plan import Plan
from solver.problem import Direction, Item, Problem
from solver.problem.weakest import weakest_of

HARD = 9_000
"""Above this load fraction a load is hard [1/10,000]."""


@dataclass(frozen=True, slots=True)
class Quality:
    """Figures of one plan.

    `peak` is the largest load fraction [1/10,000]. `swaps` are units, without weights.
    `single_kept` of `single_kit` single pieces of shared kit have one carrier all the way, and
    `single_kept_out` on all trips outbound; `single_people` people ever carry one, on average.
    `mixed` of `loads` hold fuel and food. `hard_loads` are above 90 %. `weakest` and `party` are
    mean load fractions [1]: of whoever has the least caps, and of all. `containers` are taken.
    """

    peak: int
    swaps: int
    single_kept: int
    single_kept_out: int
    single_kit: int
    single_people: float
    mixed: int
    loads: int
    hard_loads: int
    weakest: float
    party: float
    containers: int


def quality(problem: Problem, plan: Plan) -> Quality:
    """The figures of a plan of a problem without faults."""
    facts = read_facts(problem)
    replayed = replay(facts, plan)
    fractions = list(_fractions(replayed))
    weak = weakest_of(problem.roster) or {person.person_id for person in problem.roster}
    carriers = [carrier for record in replayed.to_come for carrier in record.carriers]
    singles = [i for i in problem.gear if i.count == 1 and i.owner_id is None]
    keepers = _keepers(singles, carriers)
    out = [r for r in replayed.to_come if r.trip.direction is Direction.OUTBOUND]
    keepers_out = _keepers(singles, [carrier for record in out for carrier in record.carriers])
    return Quality(
        peak=max(largest_fractions(replayed), default=0),
        swaps=sum(one.units for one in swaps(replayed)),
        single_kept=sum(len(who) <= 1 for who in keepers.values()),
        single_kept_out=sum(len(who) <= 1 for who in keepers_out.values()),
        single_kit=len(singles),
        single_people=mean(map(len, keepers.values())) if keepers else 0.0,
        mixed=sum(_is_mixed(facts, carrier.counts) for carrier in carriers),
        loads=len(carriers),
        hard_loads=sum(fraction > HARD for _, fraction in fractions),
        weakest=mean(f for who, f in fractions if who in weak) / 10_000,
        party=mean(f for _, f in fractions) / 10_000,
        containers=_containers(facts, plan),
    )


def _keepers(singles: Iterable[Item], carriers: Sequence[Carrier]) -> dict[str, set[str]]:
    """Who ever has each single piece among some packs and sleds."""
    return {
        item.unit_id: {c.person_id for c in carriers if c.counts[item.unit_id]} for item in singles
    }


def _fractions(replayed: Replay) -> Iterator[tuple[str, int]]:
    for record in replayed.to_come:
        for burden in record.burdens:
            fraction = load_fraction(replayed.facts.problem, burden, record.trip)
            yield burden.person.person_id, fraction


def _is_mixed(facts: Facts, unit_ids: Iterable[str]) -> bool:
    units = [facts.units[unit_id] for unit_id in unit_ids]
    return any(u.holds_fuel for u in units) and any(u.kind is UnitKind.BAG for u in units)


def _containers(facts: Facts, plan: Plan) -> int:
    """How many full containers are taken along."""
    return sum(
        stowed.count
        for night in plan.stock
        if night.day == 0
        for stowed in night.units
        if facts.units[stowed.unit_id].kind is UnitKind.FULL
    )
