"""Faults planted on purpose in every rule of the model and of the checker.

    python -m tests.planted_faults

Each rule is removed, turned round or shifted by one, in the model and in the checker, one
fault at a time. For each the guards are asked: the worlds of the rule tests put to the
pipeline and to the checker, the sabotaged plans put to the checker, and a handful of tiny
worlds held to exhaustive search. All guards pass on the sound program, and one of them at
least must fail on every faulty one. Prints what each fault was caught by, and the count.

It is one long file so that faults, registers and guards can be read beside each other.

The file is long because its faults are one list, a line or two each.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from functools import cache, partial
from importlib import import_module
from typing import Any
from unittest.mock import patch

import solver.model.flights.rules
import solver.model.rules
from solver.checker.ledger.facts import Facts
from solver.checker.ledger.loads import Burden
from solver.checker.ledger.replay import Replay
from solver.errors import WithheldPlanError
from solver.model.flights.cabin import Cabin
from solver.model.flights.rules import Builder as FlightBuilder
from solver.model.instance.world import World, build_world
from solver.model.rows import (
    ApartRow,
    CarrierRow,
    CountRow,
    LoadRow,
    LossRow,
    OwnRow,
    PinRow,
    ReachRow,
    RideRow,
    Row,
    SomeRideRow,
    StockRow,
)
from solver.model.rules import Builder
from solver.outcome import Limits
from solver.pipeline import plan
from solver.plan import Finding
from solver.problem import Flight, Person, Sled
from solver.problem.faults import find_faults
from solver.rulebook import RuleKind, Setting, rule
from tests.pipeline.exhaustive import least_peak
from tests.pipeline.test_rule_worlds import (
    CASES,
    test_a_world_has_a_plan_exactly_where_one_is_possible,
)
from tests.pipeline.tiny_worlds import tiny_world
from tests.rules.test_sabotage import (
    SABOTAGE,
    test_a_slip_is_caught_by_the_rules_it_breaks_and_no_others,
)
from tests.rules.worlds import Case, RequestCase, found, remarked, request_found

RED = (
    AssertionError,
    ArithmeticError,
    AttributeError,
    LookupError,
    TypeError,
    ValueError,
    WithheldPlanError,
)
"""What a guard may end in when it sees a fault; each would turn its test red."""

CHECK = import_module("solver.checker.check")
"""The module; the package has a function of the same name."""

GUARD_SEEDS = (*range(12), 18, 19, 24, 31, 48, 54, 57)
"""Tiny worlds of which some bind the rules that the worlds of the rule tests leave slack."""
STEADY = Limits(wall_seconds=20.0, workers=1, seed=1)


@dataclass(frozen=True)
class Fault:
    """One fault: what it is, the rule that it is in, and how it is put in place."""

    name: str
    rule_id: str
    in_model: bool
    planted: Callable[[], AbstractContextManager[object]]


# Faults of the model: the rows of one rule, changed.

Change = Callable[[Row], Sequence[Row]]


def _removed(_: Row) -> Sequence[Row]:
    return ()


def _shifted(by: int) -> Change:
    def change(row: Row) -> Sequence[Row]:
        match row:
            case LoadRow():
                return (replace(row, cap=max(0, row.cap + by)),)
            case StockRow() | ReachRow() | LossRow() | SomeRideRow() | PinRow():
                return (replace(row, at_least=row.at_least + by),)
            case CountRow():
                return (replace(row, at_most=row.at_most + by),)
        return (row,)

    return change


def _pack_for_sled(row: Row) -> Sequence[Row]:
    match row:
        case LoadRow():
            return (replace(row, in_pack=row.in_sled, in_sled=row.in_pack),)
        case CarrierRow():
            return (replace(row, is_sled=not row.is_sled),)
        case OwnRow():
            return (replace(row, pack_trips=frozenset()),)
    return (row,)


def _turned_round(row: Row) -> Sequence[Row]:
    """Half for all but one, nobody for the owner, the trip before, at most for at least."""
    match row:
        case ApartRow():
            return (replace(row, half=not row.half),)
        case OwnRow():
            return (replace(row, person_ids=("nobody",)),)
        case RideRow():
            return (replace(row, trip=max(0, row.trip - 1)),)
        case StockRow():
            terms = tuple((cargo, -weight) for cargo, weight in row.terms)
            return (replace(row, terms=terms, at_least=-row.at_least),)
    return (row,)


CHANGES: tuple[tuple[str, Change], ...] = (
    ("removed", _removed),
    ("one more", _shifted(1)),
    ("one less", _shifted(-1)),
    ("pack for sled", _pack_for_sled),
    ("turned round", _turned_round),
)


@cache
def _worlds() -> tuple[World, ...]:
    sound = [case.problem for _, case in CASES if not find_faults(case.problem)]
    return tuple(build_world(problem) for problem in sound)


def _changed(build: Builder, change: Change) -> Builder:
    return lambda world: [new for row in build(world) for new in change(row)]


def model_faults() -> Iterator[Fault]:
    """Every change to every rule of the model that changes a row in some rule world."""
    builders = solver.model.rules.BUILDERS
    for at, (rule_id, build) in enumerate(builders):
        for word, change in CHANGES:
            spoilt = _changed(build, change)
            if all(list(build(world)) == spoilt(world) for world in _worlds()):
                continue
            register = (*builders[:at], (rule_id, spoilt), *builders[at + 1 :])
            yield Fault(
                f"model, {rule_id}, {word}",
                rule_id,
                in_model=True,
                planted=lambda r=register: patch.object(solver.model.rules, "BUILDERS", r),
            )
    yield from _flight_faults()


def _flights_moved(by: int) -> Callable[[Flight], Flight]:
    """Every limit of an aircraft by so much higher."""
    return lambda flight: replace(
        flight,
        payload_g=flight.payload_g + by,
        seats=flight.seats + by,
        volume_ml=None if flight.volume_ml is None else flight.volume_ml + by,
        longest_mm=None if flight.longest_mm is None else flight.longest_mm + by,
    )


def _shown_flights(build: FlightBuilder, change: Callable[[Flight], Flight]) -> FlightBuilder:
    """A rule of flights that is shown other aircraft than there are."""

    def shown(cabin: Cabin) -> None:
        flights = tuple(change(flight) for flight in cabin.freight.flights)
        build(replace(cabin, freight=replace(cabin.freight, flights=flights)))

    return shown


def _shown_numbers(rule_id: str, build: FlightBuilder, by: int) -> FlightBuilder:
    """A rule of flights that reads each of its numbers so much higher."""

    def shown(cabin: Cabin) -> None:
        problem = cabin.freight.problem
        rules = problem.rules
        moved = ((s.name, rules.number(s.name) + by) for s in rule(rule_id).settings)
        rules = replace(rules, numbers=(*rules.numbers, *moved))
        freight = replace(cabin.freight, problem=replace(problem, rules=rules))
        build(replace(cabin, freight=freight))

    return shown


AIRCRAFT = ("flight_payload_held", "flight_seats_held", "flight_volume_held", "flight_length_held")
"""Rules that compare what is aboard with a limit of the aircraft."""


def _flight_faults() -> Iterator[Fault]:
    """Every rule of flights taken out of the model, and those with a limit shown another."""
    builders = solver.model.flights.rules.FLIGHT_BUILDERS
    for at, (rule_id, build) in enumerate(builders):
        changes: list[tuple[str, FlightBuilder]] = [("removed", lambda _: None)]
        for word, by in (("one more", 1), ("one less", -1)):
            if rule_id in AIRCRAFT:
                changes.append((word, _shown_flights(build, _flights_moved(by))))
            if rule(rule_id).settings:
                changes.append((word, _shown_numbers(rule_id, build, by)))
        for word, spoilt in changes:
            register = (*builders[:at], (rule_id, spoilt), *builders[at + 1 :])
            yield Fault(
                f"model, {rule_id}, {word}",
                rule_id,
                in_model=True,
                planted=lambda r=register: patch.object(
                    solver.model.flights.rules, "FLIGHT_BUILDERS", r
                ),
            )


# Faults of the checker: one rule's function, changed, or shown other limits.

Judge = Callable[[Any], Iterator[Finding]]
"""A rule's function, on a replay or on the facts of a request."""


def _blind(_: Judge, __: str) -> Judge:
    return lambda replay: iter(())


def _contrary(judge: Judge, rule_id: str) -> Judge:
    """Finds something exactly where nothing is to be found."""

    def contrary(replay: Replay) -> Iterator[Finding]:
        if not list(judge(replay)):
            yield Finding(rule_id, "planted", 1, "units")

    return contrary


def _one_too_many(judge: Judge, _: str) -> Judge:
    return lambda replay: (replace(f, amount=f.amount + 1) for f in judge(replay))


def _shown(change: Callable[[Burden], Burden]) -> Callable[[Judge, str], Judge]:
    """A rule that is shown other burdens than there are."""

    def shown(judge: Judge, _: str) -> Judge:
        def judged(replay: Replay) -> Iterator[Finding]:
            records = tuple(
                replace(record, burdens=tuple(change(burden) for burden in record.burdens))
                for record in replay.records
            )
            return judge(replace(replay, records=records))

        return judged

    return shown


def _limits_moved(by: int) -> Callable[[Burden], Burden]:
    def person_moved(person: Person) -> Person:
        caps = replace(
            person.caps,
            pack_g=person.caps.pack_g + by,
            sled_g=person.caps.sled_g + by,
            total_g=None if person.caps.total_g is None else person.caps.total_g + by,
            pack_by_leg=tuple((m, d, g + by) for m, d, g in person.caps.pack_by_leg),
        )
        limit_g = person.load_limit_g
        return replace(
            person,
            caps=caps,
            pack_volume_ml=person.pack_volume_ml + by,
            load_limit_g=None if limit_g is None else limit_g + by,
        )

    def sled_moved(sled: Sled) -> Sled:
        return replace(sled, mass_limit_g=sled.mass_limit_g + by, volume_ml=sled.volume_ml + by)

    return lambda burden: replace(
        burden,
        person=person_moved(burden.person),
        sled=None if burden.sled is None else sled_moved(burden.sled),
        pulls=tuple((person_moved(person), part) for person, part in burden.pulls),
    )


def _pack_and_sled_swapped(burden: Burden) -> Burden:
    return replace(burden, pack=burden.on_sled, on_sled=burden.pack)


LIMITS = (
    "pack_cap_held",
    "pack_volume_held",
    "sled_cap_held",
    "sled_limit_held",
    "sled_volume_held",
    "total_cap_held",
    "load_limit_held",
)
"""Rules that compare a burden with a limit, whose limit can be moved."""


def checker_faults() -> Iterator[Fault]:
    """Every rule of the checker blind, contrary, off by one, and its limits moved."""
    rules = CHECK.RULES
    for at, (rule_id, judge) in enumerate(rules):
        changes: list[tuple[str, Callable[[Judge, str], Judge]]] = [
            ("removed", _blind),
            ("turned round", _contrary),
            ("amount one more", _one_too_many),
        ]
        if rule_id in LIMITS:
            changes.append(("limit one more", _shown(_limits_moved(1))))
            changes.append(("limit one less", _shown(_limits_moved(-1))))
            if rule_id not in ("total_cap_held", "load_limit_held"):
                changes.append(("pack for sled", _shown(_pack_and_sled_swapped)))
        for word, change in changes:
            register = (*rules[:at], (rule_id, change(judge, rule_id)), *rules[at + 1 :])
            yield Fault(
                f"checker, {rule_id}, {word}",
                rule_id,
                in_model=False,
                planted=lambda r=register: patch.object(CHECK, "RULES", r),
            )
    yield from _request_faults()


def _request_faults() -> Iterator[Fault]:
    """Every rule on the request blind, contrary, off by one, and shown other numbers."""
    rules = CHECK.REQUEST_RULES
    for at, (rule_id, judge) in enumerate(rules):
        changes: list[tuple[str, Callable[[Judge, str], Judge]]] = [
            ("removed", _blind),
            ("turned round", _contrary),
            ("amount one more", _one_too_many),
        ]
        for setting in rule(rule_id).settings:
            step = 1.0 if setting.whole else 0.01
            changes.append((f"{setting.name} more", _other_number(setting, step)))
            changes.append((f"{setting.name} less", _other_number(setting, -step)))
        for word, change in changes:
            register = (*rules[:at], (rule_id, change(judge, rule_id)), *rules[at + 1 :])
            yield Fault(
                f"request, {rule_id}, {word}",
                rule_id,
                in_model=False,
                planted=lambda r=register: patch.object(CHECK, "REQUEST_RULES", r),
            )


def _other_number(setting: Setting, by: float) -> Callable[[Judge, str], Judge]:
    """A rule on the request that reads one of its numbers a step too high or too low."""

    def shown(judge: Judge, _: str) -> Judge:
        def judged(facts: Facts) -> Iterator[Finding]:
            rules = facts.problem.rules
            moved = (setting.name, rules.number(setting.name) + by)
            rules = replace(rules, numbers=(*rules.numbers, moved))
            return judge(replace(facts, problem=replace(facts.problem, rules=rules)))

        return judged

    return shown


# Guards: tests of the suite, as calls.

Guard = tuple[str, Callable[[], None]]


def _checked(rule_id: str, case: Case | RequestCase) -> None:
    """What the case's own rule, and any other that it names, finds in its plan."""
    if isinstance(case, RequestCase):
        assert request_found(case.problem, rule_id) == case.finds
        return
    if rule(rule_id).kind is not RuleKind.HARD:
        assert remarked(case.problem, case.plan, rule_id) == case.finds
        return
    concerned = {rule_id, *dict(case.finds)}
    told = [finding for finding in found(case.problem, case.plan) if finding[0] in concerned]
    assert tuple(told) == case.finds


@cache
def _expected(seed: int) -> int | None:
    return least_peak(tiny_world(seed))


def _least(seed: int) -> None:
    outcome = plan(tiny_world(seed), STEADY)
    goals = getattr(outcome, "goals", None)
    assert (goals[0].value if goals else None) == _expected(seed)
    assert goals is None or goals[0].proven


def guards(rule_id: str, *, in_model: bool) -> Iterator[Guard]:
    """The guards in the order in which they are likeliest to see a fault in a rule."""
    solved = test_a_world_has_a_plan_exactly_where_one_is_possible
    for its_rule, case in sorted(CASES, key=lambda entry: entry[0] != rule_id):
        yield (
            f"{its_rule}: {case.name}",
            partial(solved, case) if in_model else partial(_checked, its_rule, case),
        )
    if in_model:
        for seed in GUARD_SEEDS:
            yield f"exhaustive search on world {seed}", partial(_least, seed)
    else:
        for name, spoilt, expected in SABOTAGE:
            slip = test_a_slip_is_caught_by_the_rules_it_breaks_and_no_others
            yield f"sabotage: {name}", partial(slip, spoilt, expected)


def first_red(asked: Iterator[Guard]) -> str | None:
    """The name of the first guard that fails, None where all pass."""
    for name, guard in asked:
        try:
            guard()
        except RED:
            return name
    return None


def caught_by(fault: Fault) -> str | None:
    """The guard that sees a fault, None where none does."""
    with fault.planted():
        return first_red(guards(fault.rule_id, in_model=fault.in_model))


def main() -> int:
    """Plant every fault and say what caught it; 0 when all are caught on sound ground."""
    for in_model in (True, False):
        if name := first_red(guards("", in_model=in_model)):
            sys.stdout.write(f"without any fault planted, red: {name}\n")
            return 1
    planted = caught = 0
    for fault in (*model_faults(), *checker_faults()):
        planted += 1
        name = caught_by(fault)
        caught += name is not None
        sys.stdout.write(f"{fault.name}: {name or 'NOT CAUGHT'}\n")
        sys.stdout.flush()
    sys.stdout.write(f"planted {planted}, caught {caught}\n")
    return 0 if planted == caught else 1


if __name__ == "__main__":
    sys.exit(main())
