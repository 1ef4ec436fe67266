"""Seeded problems that had a plan until one thing was tightened, and what the refusal must name.

    python -m tests.pipeline.overtightened 0 300

makes those seeds, of four kinds in turn: one person's own cap, a party's caps on one leg, volume,
and stock of one cook group. The person, trip or group that the refusal names first must be the one
that was tightened. Giving it the amount that was told must bring a plan back, and giving
everything else ten times as much must not. All of it is shown by solving. The amount is that of the
first remedy that raises a cap: what one full trip leaves to the next may ask for a little more than
the worst trip lacks by itself (seed 181).

The file is long because its four kinds of problem share one search for what the refusal must name.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from solver.errors import FaultyProblemError
from solver.outcome import Conflict, Infeasible, Limits, Outcome, RemedyKind, Solved
from solver.pipeline import plan
from solver.problem import (
    Container,
    CookGroup,
    Direction,
    LegMode,
    NightSet,
    Person,
    Problem,
)
from tests.rules.worlds import EVERY_NIGHT, item, person, world

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1, gap=1_000)
KINDS = ("own cap", "party's caps", "volume", "stock")
GRAIN = 100
"""All masses and volumes are whole multiples of this, so that what fits in all can be packed."""

AMPLE = 10

Change = Callable[[Problem], Problem]


@dataclass(frozen=True)
class Tightened:
    """A problem that has no plan any more, and what is to be named in its refusal.

    `names` are pairs that the first conflict, or the fault, must have. `help_by(problem, amount)`
    gives what was tightened so much more; `all_else` gives everything else ten times as much.
    """

    kind: str
    before: Problem
    problem: Problem
    names: tuple[tuple[str, str], ...]
    help_by: Callable[[Problem, int], Problem]
    all_else: Change


def tightened(seed: int) -> Tightened:
    """The problem of a seed; the same seed gives the same problem."""
    draw = Random(f"tightened {seed}")
    kind = KINDS[seed % len(KINDS)]
    return {"own cap": _own_cap, "party's caps": _party, "volume": _volume, "stock": _stock}[kind](
        draw
    )


def _grams(draw: Random, least: int, most: int) -> int:
    return GRAIN * draw.randint(least // GRAIN, most // GRAIN)


def _base(draw: Random) -> Problem:
    """Two to four people with kits of their own and small shared pieces, up to a second camp."""
    people, gear = [], []
    for number in range(1, draw.randint(2, 4) + 1):
        who, own_g = f"m{number}", _grams(draw, 3_000, 9_000)
        people.append(person(who, pack_g=own_g + 6_000, water_g=1_000))
        need = draw.choice((None, EVERY_NIGHT))
        kit = item("kit", mass_g=own_g, owner_id=who)
        gear.append(kit if need is None else replace(kit, need=need))
        gear[-1] = replace(gear[-1], volume_ml=_grams(draw, 5_000, 20_000))
    pieces = draw.randint(5, 20) * len(people)
    gear.append(replace(item("piece", mass_g=GRAIN, count=pieces), volume_ml=GRAIN))
    days = draw.choice(("strip-c1 c1-c2 c2-c1-strip", "strip-c1 c1-c2-c1 c1-c2 c2-c1 c1-strip"))
    problem = world(days, people=tuple(people), gear=tuple(gear))
    legs = (problem.route.legs[0], replace(problem.route.legs[1], mode=LegMode.FIXED_ROPE))
    people = [
        replace(p, pack_volume_ml=40_000, cook_group_id=problem.roster[0].cook_group_id)
        for p in problem.roster
    ]
    return replace(problem, route=replace(problem.route, legs=legs), roster=tuple(people))


def _each(problem: Problem, change: Callable[[Person], Person]) -> Problem:
    return replace(problem, roster=tuple(change(p) for p in problem.roster))


def _more_pack(who: Person, percent: int) -> Person:
    caps = replace(who.caps, pack_g=who.caps.pack_g * percent // 100)
    return replace(who, caps=caps)


def _more_room(who: Person) -> Person:
    return replace(who, pack_volume_ml=who.pack_volume_ml * AMPLE)


def _own_cap(draw: Random) -> Tightened:
    """One person's cap lies below the own kit and water."""
    before = _base(draw)
    weak = draw.choice(before.roster).person_id
    own_g = next(i.mass_g for i in before.gear if i.owner_id == weak) + 1_000
    cap_g = own_g - _grams(draw, GRAIN, 2_500)

    def only(change: Callable[[Person], Person]) -> Change:
        return lambda problem: _each(problem, lambda p: change(p) if p.person_id == weak else p)

    def others(problem: Problem) -> Problem:
        return _each(
            problem,
            lambda p: _more_room(p if p.person_id == weak else _more_pack(p, 100 * AMPLE)),
        )

    return Tightened(
        "own cap",
        before,
        only(lambda p: replace(p, caps=replace(p.caps, pack_g=cap_g)))(before),
        (("rule", "pack_cap_held"), ("person", weak)),
        lambda problem, more: only(
            lambda p: replace(p, caps=replace(p.caps, pack_g=p.caps.pack_g + more))
        )(problem),
        others,
    )


def _party(draw: Random) -> Tightened:
    """Everybody's cap on the fixed rope, one way, is too small for what must go over it."""
    before = _base(draw)
    way = draw.choice((Direction.OUTBOUND, Direction.HOMEWARD))
    own_g = {i.owner_id: i.mass_g + 1_000 for i in before.gear if i.owner_id}
    (pieces,) = (i.count for i in before.gear if i.owner_id is None)
    spare = [0] * len(before.roster)
    for _ in range(pieces - draw.randint(1, pieces - 1)):
        spare[draw.randrange(len(spare))] += GRAIN

    def on_rope(who: Person, cap_g: int) -> Person:
        by_leg = ((LegMode.FIXED_ROPE, way, cap_g),)
        return replace(who, caps=replace(who.caps, pack_by_leg=by_leg))

    def help_by(problem: Problem, more: int) -> Problem:
        first, *others = problem.roster
        cap_g = first.caps.pack_on(LegMode.FIXED_ROPE, way) + more
        return replace(problem, roster=(on_rope(first, cap_g), *others))

    tight = tuple(
        on_rope(p, own_g[p.person_id] + more) for p, more in zip(before.roster, spare, strict=True)
    )
    ends = ("c1", "c2") if way is Direction.OUTBOUND else ("c2", "c1")
    return Tightened(
        "party's caps",
        before,
        replace(before, roster=tight),
        (("rule", "pack_cap_held"), ("from_place", ends[0]), ("to_place", ends[1]), ("person", "")),
        help_by,
        lambda problem: _each(problem, lambda p: _more_room(_more_pack(p, 100 * AMPLE))),
    )


def _volume(draw: Random) -> Tightened:
    """One person's pack is too small for the own kit, or all packs for what all must carry."""
    before = _base(draw)
    before = replace(before, rules=replace(before.rules, pack_volume_allowance_percent=0))
    own_ml = {i.owner_id: i.volume_ml for i in before.gear if i.owner_id}
    (pieces,) = (i.count for i in before.gear if i.owner_id is None)
    is_own = draw.random() < 0.5
    weak = draw.choice(before.roster).person_id
    short_ml = _grams(draw, GRAIN, 3_000)
    spare = [0] * len(before.roster)
    for _ in range(pieces - draw.randint(1, pieces - 1)):
        spare[draw.randrange(len(spare))] += GRAIN
    rooms = {
        p.person_id: own_ml[p.person_id] + more
        for p, more in zip(before.roster, spare, strict=True)
    }
    if is_own:
        rooms = {p.person_id: p.pack_volume_ml for p in before.roster}
        rooms[weak] = own_ml[weak] - short_ml

    def help_by(problem: Problem, more: int) -> Problem:
        # Of a party each gets a share of whole pieces: one alone could not bear their mass.
        helped = [weak] if is_own else [p.person_id for p in problem.roster]
        pieces_more = -(-more // GRAIN)
        shares = {
            who: GRAIN * len(range(rank, pieces_more, len(helped)))
            for rank, who in enumerate(helped)
        }
        return _each(
            problem,
            lambda p: replace(p, pack_volume_ml=p.pack_volume_ml + shares.get(p.person_id, 0)),
        )

    def all_else(problem: Problem) -> Problem:
        return _each(
            problem,
            lambda p: (
                _more_room(_more_pack(p, 100 * AMPLE))
                if is_own and p.person_id != weak
                else _more_pack(p, 100 * AMPLE)
            ),
        )

    return Tightened(
        "volume",
        before,
        _each(before, lambda p: replace(p, pack_volume_ml=rooms[p.person_id])),
        (("rule", "pack_volume_held"), ("person", weak if is_own else "")),
        help_by,
        all_else,
    )


def _stock(draw: Random) -> Tightened:
    """One of two cook groups has too few containers for its nights."""
    nights = draw.randint(2, 4)
    days = " ".join(("strip-c1", *["c1"] * (nights - 1), "c1-strip"))
    names = ("g1", "g2")
    people = [
        replace(person(f"m{n}", pack_g=40_000), cook_group_id=names[n % 2], pack_volume_ml=200_000)
        for n in range(draw.randint(2, 5))
    ]
    content_ml = _grams(draw, 300, 900)
    meals = tuple(
        NightSet("meal", name, 500, 0, 0, volume_ml=500, fuel_ml=_grams(draw, 100, 500))
        for name in names
    )
    groups = tuple(
        CookGroup(
            name,
            (("strip", "meal"), ("c1", "meal")),
            (Container("can", name, content_ml=content_ml, tare_g=100, volume_ml=900),),
        )
        for name in names
    )
    before = world(days, people=tuple(people), groups=groups, night_sets=meals)
    needed = {}
    for name, meal in zip(names, meals, strict=True):
        members = sum(p.cook_group_id == name for p in people)
        needed[name] = -(-nights * members * meal.fuel_ml // content_ml)
    short = draw.choice(names)
    taken = draw.randint(0, needed[short] - 1)
    counts = dict(needed) | {short: taken}

    def with_counts(problem: Problem, change: Callable[[str, int], int]) -> Problem:
        return replace(
            problem,
            cook_groups=tuple(
                replace(
                    g,
                    containers=tuple(
                        replace(c, count=change(g.cook_group_id, c.count or 0))
                        for c in g.containers
                    ),
                )
                for g in problem.cook_groups
            ),
        )

    return Tightened(
        "stock",
        before,
        with_counts(before, lambda name, _: counts[name]),
        (("rule", "too_few_containers"), ("cook_group", short)),
        lambda problem, more: with_counts(
            problem, lambda name, count: count + (more if name == short else 0)
        ),
        lambda problem: _each(
            with_counts(problem, lambda name, n: n if name == short else n * AMPLE),
            lambda p: _more_room(_more_pack(p, 100 * AMPLE)),
        ),
    )


def fault_of(seed: int) -> str | None:
    """What is wrong with the refusal of a seed's problem; None where nothing is."""
    case = tightened(seed)
    if not isinstance(plan(case.before, LIMITS), Solved):
        return f"seed {seed} ({case.kind}): there was no plan before"
    told = _told(case.problem)
    if told is None:
        return f"seed {seed} ({case.kind}): there is still a plan"
    names, amount = told
    wanted = dict(case.names)
    wrong = {n: names.get(n, "") for n, value in wanted.items() if names.get(n, "") != value}
    if wrong:
        return f"seed {seed} ({case.kind}): wanted {wanted}, named {wrong}"
    if not isinstance(_answer(case.help_by(case.problem, amount)), Solved):
        return f"seed {seed} ({case.kind}): {amount} more is not enough"
    if isinstance(_answer(case.all_else(case.problem)), Solved):
        return f"seed {seed} ({case.kind}): something else helps, too"
    return None


def _answer(problem: Problem) -> Outcome | FaultyProblemError:
    try:
        return plan(problem, LIMITS)
    except FaultyProblemError as error:
        return error


def _told(problem: Problem) -> tuple[dict[str, str], int] | None:
    """What a refusal names first and by how much; None where there is a plan or no answer."""
    outcome = _answer(problem)
    if isinstance(outcome, Infeasible):
        conflict: Conflict = outcome.conflicts[0]
        named = {name: str(value) for name, value in conflict.where}
        raised = [r.amount for r in conflict.remedies if r.kind is RemedyKind.RAISE and r.amount]
        return named | {"rule": conflict.rule_id}, (*raised, conflict.amount or 0)[0]
    if not isinstance(outcome, FaultyProblemError):
        return None
    fault = outcome.faults[0]
    group = problem.cook_groups[int(fault.where[1])].cook_group_id
    words = fault.detail.split()
    more = int(words[words.index("more.") - 1]) if "more." in words else 0
    return {"rule": fault.code, "cook_group": group}, more


def main(first: int, last: int) -> int:
    """Try the seeds of a range; 1 where any refusal names the wrong thing."""
    right: Counter[str] = Counter()
    told = 0
    for seed in range(first, last):
        line = fault_of(seed)
        if line is None:
            right[KINDS[seed % len(KINDS)]] += 1
        else:
            told += 1
            sys.stdout.write(f"{line}\n")
            sys.stdout.flush()
    counts = ", ".join(f"{kind} {number}" for kind, number in right.items())
    sys.stdout.write(f"{last - first} refusals, named right: {counts}; {told} wrong\n")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
