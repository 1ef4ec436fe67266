"""A person is taken down: who goes along, what they take, and whether both parties keep the rules.

The expedition divides at its moment. Those who leave get what they need from what stands there,
and go home. Those who stay go on with what is left. At an evening they divide after its night.
Each party is planned like any other rest. The checker adds both up: each thing is with one of the
parties or is said to be left behind.

What a party that leaves must have is common practice, no source. People on the spot decide.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import read_facts
from solver.checker.parted import parted_findings
from solver.checker.queries.at_night import sleds_at
from solver.errors import WithheldPlanError
from solver.outcome import Limits
from solver.pipeline import digest
from solver.plan import Plan
from solver.problem import Day, Person, Problem, Sled
from solver.progress import Watch
from solver.rest.counted import with_counts, with_standing, without_lost_items
from solver.rest.fetched import UntilFetched, until_fetched
from solver.rest.hurt import Evacuation, How, Hurt
from solver.rest.parting import Counts, less, place_of, without_people
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo, Rest
from solver.rest.taken import take_down
from solver.rest.together import after_their_last_night
from solver.rest.two_parties import (
    HurtLimit,
    WayDown,
    left_behind,
    limit_of_hurt,
    of_the_leavers,
    spared_things,
    sparing,
    who_goes_down,
)
from solver.rest.way_down import Haul, caps_with_litter, days_down, haul


@dataclass(frozen=True, slots=True)
class Split:
    """The two problems, and what was shared out between them."""

    leaving: tuple[Person, ...]
    staying: tuple[str, ...]
    days: tuple[Day, ...]
    missing: tuple[str, ...]
    counts: Counts
    behind: Counts
    haul: Haul | None
    goes: Problem
    stays: Problem
    sleds_left: tuple[str, ...]
    abandoned: Counts
    until_fetched: UntilFetched | None
    limit: HurtLimit | None


def evacuate(
    problem: Problem,
    followed: Plan,
    hurt: Hurt,
    limits: Limits | None = None,
    watch: Watch | None = None,
    *,
    letting_go: Sequence[LettingGo] = (),
) -> tuple[Evacuation, Rest | None]:
    """The evacuation, and the rest of those who stay; None if nobody stays.

    Raises KeyError for people whom the roster does not have, and WithheldPlanError where the two
    parties together do not have what stood there, which is our own bug.
    """
    limits = limits or Limits()
    problem = after_their_last_night(problem, followed)
    place_id = place_of(problem, hurt.person_id)
    split = _split(problem, followed, hurt)
    both = bool(split.staying and split.days)
    down = rest = None
    if split.days:
        mine = _part(limits, watch, _DOWN if both else 0.5)
        down = plan_rest(split.goes, followed, *mine)
        if not down.is_solved and hurt.how is not How.NOT_HURT:
            lighter = _split(problem, followed, hurt, lighter=True)
            mine = _part(limits, watch, _DOWN if both else 0.5)
            by_less = plan_rest(lighter.goes, followed, *mine)
            split, down = (lighter, by_less) if by_less.is_solved else (split, down)
    if both:
        _confirm(problem, split, followed)
    if split.staying:
        mine = _part(limits, watch, 1 - 2 * _DOWN if both else 1.0)
        rest = plan_rest(split.stays, followed, *mine, letting_go=letting_go)
    return (
        Evacuation(
            hurt=hurt,
            place_id=place_id,
            leaving=tuple(person.person_id for person in split.leaving),
            staying=split.staying,
            taken=_listed(split.counts),
            left_behind=_listed(Counter(split.behind) + Counter(split.abandoned)),
            missing=split.missing,
            outside=tuple(_outside(hurt, place_id, split)),
            haul=split.haul,
            down=down,
            sleds_left=split.sleds_left,
            until_fetched=split.until_fetched,
            limit=split.limit,
            next_day=1 + (problem.history.day if problem.history is not None else 0),
        ),
        rest,
    )


_DOWN = 0.25
"""The share of the time that one plan of those who leave may take [1]; at most two are made."""


def _part(limits: Limits, watch: Watch | None, share: float) -> tuple[Limits, Watch]:
    """A part of the time, for one of the two parties."""
    seconds = share * limits.wall_seconds
    if watch is None:
        return replace(limits, wall_seconds=seconds), Watch(seconds)
    part = Watch(
        share * watch.wall_seconds,
        watch.now,
        watch.tell,
        wish_to_stop=watch.wish_to_stop,
        wish_to_finish=watch.wish_to_finish,
    )
    return replace(limits, wall_seconds=seconds), part


def _listed(counts: Counts) -> tuple[tuple[str, str, int], ...]:
    return tuple((place, unit, n) for (place, unit), n in sorted(counts.items()) if n)


def _split(problem: Problem, followed: Plan, hurt: Hurt, *, lighter: bool = False) -> Split:
    """Share people and things out between the two parties.

    With `lighter`, the hurt person leaves behind what they can do without for some nights.
    """
    known = with_standing(without_lost_items(with_counts(problem, followed)), followed)
    place_id = place_of(known, hurt.person_id)
    there = [p for p in known.roster if place_of(known, p.person_id) == place_id]
    ill = known.person(hurt.person_id)
    leaving, missing, hauled = _company(known, hurt, ill, there)
    gone = {person.person_id for person in leaving}
    teams = tuple(dict.fromkeys(person.rope_team_id for person in leaving))
    days: tuple[Day, ...] = ()
    counts: Counts = {}
    fetched: UntilFetched | None = None
    if hurt.how is How.FLIES:
        are_named = hurt.companions is not None
        fetched = until_fetched(known, leaving, there, place_id, are_named=are_named)
        counts = fetched.taken
    else:
        days = hurt.days or days_down(known, followed, hurt.person_id, place_id, teams)
        stay_there = sum(person.person_id not in gone for person in there)
        taken = take_down(known, leaving, stay_there, place_id, days)
        counts, missing = taken.counts, (*missing, *taken.missing)
    behind = left_behind(known, gone, place_id, flies=not days)
    if lighter:
        behind |= spared_things(known, hurt.person_id, place_id)
    limit = limit_of_hurt(known, ill) if days and hurt.how is not How.NOT_HURT else None
    goes = of_the_leavers(problem, known, gone, place_id, WayDown(days, counts, behind))
    goes = _with_hurt(goes, hurt, limit, hauled)
    return Split(
        leaving=tuple(leaving),
        staying=tuple(p.person_id for p in known.roster if p.person_id not in gone),
        days=days,
        missing=missing,
        counts=counts,
        behind=behind,
        haul=hauled,
        goes=goes,
        stays=less(without_people(problem, gone, place_id), counts),
        abandoned=_abandoned(known, gone, counts) if len(gone) == len(known.roster) else {},
        sleds_left=tuple(s.sled_id for s in goes.sleds if _is_left(s, gone, goes)),
        until_fetched=fetched,
        limit=limit,
    )


def _abandoned(known: Problem, gone: set[str], counts: Counts) -> Counts:
    """Shared things on the mountain that nobody takes, if nobody stays."""
    own = {item.unit_id for item in known.gear if item.owner_id in gone}
    return {
        (one.place_id, one.unit_id): one.count - counts.get((one.place_id, one.unit_id), 0)
        for one in (known.history.standing if known.history is not None else ())
        if one.unit_id not in own and one.place_id != known.start_place
    }


def _is_left(sled: Sled, gone: set[str], goes: Problem) -> bool:
    """Whether a sled of those who leave goes nowhere any more."""
    day = goes.history.day if goes.history is not None else 1
    return sled.last_day == day and not {sled.hauler_id, sled.second_hauler_id}.isdisjoint(gone)


def _company(
    known: Problem, hurt: Hurt, ill: Person, there: Sequence[Person]
) -> tuple[list[Person], tuple[str, ...], Haul | None]:
    """Who leaves, the hurt person first; what people are missing, in words; how they haul."""
    if hurt.companions is not None:
        named = [ill, *(known.person(person_id) for person_id in hurt.companions)]
        return named, (), _haul(known, hurt, named)
    if hurt.how is How.FLIES:
        return [ill], (), None
    few, missing = who_goes_down(known, ill, there)
    by_few = _haul(known, hurt, few)
    if by_few is None or by_few.more_haulers <= 0:
        return few, missing, by_few
    everybody = [ill, *(p for p in there if p.person_id != hurt.person_id)]
    by_all = _haul(known, hurt, everybody)
    if by_all is None or by_all.more_haulers > 0:
        return few, missing, by_few
    return everybody, (), by_all


def _haul(known: Problem, hurt: Hurt, leaving: Sequence[Person]) -> Haul | None:
    """How those who go along pull a person who cannot walk; None if the person walks."""
    if hurt.how is not How.HAULED:
        return None
    place_id = place_of(known, hurt.person_id)
    facts = read_facts(known)
    day = known.history.day if known.history is not None else 1
    there = sleds_at(facts, facts.night(day), (place_id,))
    tares = [sled.tare_g for sled in known.sleds if sled.sled_id in there]
    ill = known.person(hurt.person_id)
    body_g = ill.body_mass_g or _BODY_G
    mass_g = body_g + limit_of_hurt(known, ill).most_g + hurt.litter_g + min(tares, default=0)
    haulers = [p for p in leaving[1:] if p.load_limit_g is None]
    found = haul(known, haulers, mass_g, place_id)
    if tares:
        return found
    return replace(found, cannot=(f"no sled stands at {place_id}", *found.cannot))


_BODY_G = 85_000
"""Body and clothes of a person whose mass is not given [g]; common practice, no source."""


def _with_hurt(goes: Problem, hurt: Hurt, limit: HurtLimit | None, hauled: Haul | None) -> Problem:
    """The problem of those who leave: the hurt person has little, and is pulled if need be."""
    if limit is not None:
        goes = sparing(goes, hurt.person_id, limit.most_g, f"{hurt.how} down")
    return goes if hauled is None else _with_litter(goes, hurt, hauled.share_g)


def _with_litter(goes: Problem, hurt: Hurt, share_g: int) -> Problem:
    """The problem of those who leave: all who are able pull the litter and no other sled."""
    day = goes.history.day if goes.history is not None else 1
    return replace(
        goes,
        sleds=tuple(replace(sled, last_day=day) for sled in goes.sleds),
        roster=tuple(
            p
            if p.person_id == hurt.person_id or p.load_limit_g is not None
            else caps_with_litter(p, share_g)
            for p in goes.roster
        ),
    )


def _confirm(problem: Problem, split: Split, followed: Plan) -> None:
    """Have the checker add both parties up."""
    whole, *parties = (without_lost_items(one) for one in (problem, split.stays, split.goes))
    behind: Mapping[tuple[str, str], int] = split.behind
    findings = parted_findings(whole, parties, followed, behind)
    if findings:
        raise WithheldPlanError(digest(problem), tuple(f.message for f in findings))


def _outside(hurt: Hurt, place_id: str, split: Split) -> Iterator[str]:
    """What help from outside would need to bring or do, in words."""
    if hurt.how is How.FLIES:
        yield f"an aircraft, or a rescue team with a litter, at {place_id} for {hurt.person_id}"
    if split.haul is not None and split.haul.cannot:
        for leg in split.haul.cannot:
            yield f"a rescue team or an aircraft for {leg}"
        if split.haul.more_haulers > 0:
            yield f"{split.haul.more_haulers} more people to haul"
    if split.until_fetched is not None:
        for one in split.until_fetched.missing:
            yield f"{one}, for the wait at {place_id}"
    for one in split.missing:
        yield f"{one}, so that there can be two parties"
