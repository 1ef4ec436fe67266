"""Every waiver and every number at its ends, over the worlds of the suite.

    python -m tests.pipeline.sweep_waivers rules --record FILE [--share 1/3] [--seconds 600]

takes the worlds of a family (`rules`, `tiny`, `glacier`) that are not on record yet, all of them
or every third from the first on, and changes one thing at a time: each hard rule that may be
waived, each number of a rule at its least and most, and the outside allowance of packs at its
ends. Model and checker disagree where a plan is withheld, and where the model says that there is
none although the plan of the world itself passes the check under the change. Where a change
alters nothing that the model builds, that plan is checked without a search. After so many seconds
no further world is begun; the same command goes on from there. Prints all that is on record: each
disagreement and a count.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path

from solver.checker import check_plan, check_request
from solver.errors import WithheldPlanError
from solver.model.instance.world import build_world
from solver.model.rules import build_rows
from solver.outcome import Infeasible, Limits, NoPlanInTime, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Problem
from solver.problem.faults import find_faults
from solver.problem.problem import RuleSettings
from solver.rulebook import RULES, RuleKind
from tests.pipeline.glacier_worlds import glacier_world
from tests.pipeline.tiny_worlds import tiny_world

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1, gap=500)
REASON = "a sweep"

COUNTED_IN_ROWS = ("peak_load", "hard_days", "mass_ascent")
"""Goals that follow from a plan and from rows that the model builds."""

Change = tuple[str, RuleSettings]
"""A name, and the settings of the rules under which a world is asked."""


@dataclass(frozen=True)
class Swept:
    """What was seen of one world: how each combination ended, and the disagreements."""

    ends: Counter[str]
    disagreements: tuple[str, ...]


def rule_worlds() -> list[Problem]:
    """The worlds of the tests of every rule, each once."""
    worlds = {}
    for rule in RULES:
        for case in import_module(f"tests.rules.test_{rule.rule_id}").CASES:
            worlds[repr(case.problem)] = case.problem
    return list(worlds.values())


FAMILIES: dict[str, Callable[[int], Problem]] = {
    "tiny": tiny_world,
    "glacier": glacier_world,
}


def changes(problem: Problem) -> Iterator[Change]:
    """Every change of a world's rules that may matter to it."""
    rules = problem.rules
    given = dict(rules.waived)
    for rule in RULES:
        if not problem.asks(rule.rule_id):
            continue
        may_be_waived = rule.kind is RuleKind.HARD and not rule.firm
        if may_be_waived and rule.rule_id not in given:
            stated = (*rules.waived, (rule.rule_id, REASON))
            yield f"waive {rule.rule_id}", replace(rules, waived=stated)
        for setting in rule.settings:
            for value in dict.fromkeys((setting.least, setting.most)):
                if rules.number(setting.name) != value:
                    numbers = dict(rules.numbers) | {setting.name: value}
                    name = f"{setting.name} = {value:g}"
                    yield name, replace(rules, numbers=tuple(numbers.items()))
    for percent in (0, 100):
        if rules.pack_volume_allowance_percent != percent:
            name = f"pack_volume_allowance_percent = {percent}"
            yield name, replace(rules, pack_volume_allowance_percent=percent)


def sweep(problem: Problem, name: str) -> Swept:
    """Ask a world as it is and under each change."""
    ends: Counter[str] = Counter()
    told = []
    if find_faults(problem):
        return Swept(ends, ())
    base, line = _ask(problem, None, ends)
    told += [f"{name}, as it is: {line}"] if line else []
    rows = repr(build_rows(build_world(problem))) if base else ""
    for what, rules in changes(problem):
        changed = replace(problem, rules=rules)
        if find_faults(changed):
            ends["faulty"] += 1
            continue
        line = None
        # Rows say nothing of flights, which have a model of their own.
        if base and not problem.flights and repr(build_rows(build_world(changed))) == rows:
            # The model would build what it built, so its plan must be right here, too.
            ends["same model"] += 1
            line = _unlike(problem, changed, base)
        else:
            _, line = _ask(changed, base, ends)
        told += [f"{name}, {what}: {line}"] if line else []
    return Swept(ends, tuple(told))


def _passes(problem: Problem, given: Plan) -> bool:
    """Whether a plan keeps every hard rule of a problem, by the check."""
    return not check_plan(check_request(problem), given).findings


def _unlike(problem: Problem, changed: Problem, given: Plan) -> str | None:
    """What the check says otherwise of a plan under a change that the model does not see.

    Findings on the request alone come before any plan, so the model is not asked there.
    """
    request = check_request(changed)
    if request.findings:
        return None
    before = dict(check_plan(check_request(problem), given).goals)
    report = check_plan(request, given)
    if report.findings:
        return f"the model builds the same, the check has {report.findings[0]}"
    after = dict(report.goals)
    unlike = [name for name in COUNTED_IN_ROWS if before[name] != after[name]]
    return f"the check counts other goals: {unlike}" if unlike else None


def _ask(problem: Problem, base: Plan | None, ends: Counter[str]) -> tuple[Plan | None, str | None]:
    """The plan of a problem, if any, and what speaks against the answer."""
    try:
        outcome = plan(problem, LIMITS)
    except WithheldPlanError as error:
        ends["withheld"] += 1
        return None, str(error)
    match outcome:
        case Solved():
            ends["solved"] += 1
            return outcome.plan, None
        case NoPlanInTime():
            ends["no plan in time"] += 1
            return None, None
        case Infeasible():
            ends["infeasible"] += 1
            if base is not None and _passes(problem, base):
                return None, "called infeasible, though the plan of the world itself passes"
    return None, None


def numbers(count: int, share: str) -> range:
    """The numbers of a share of the worlds: of `2/3` the second, the fifth and so on."""
    which, of = map(int, share.split("/"))
    if not 1 <= which <= of:
        raise ValueError(f"{share} is no share.")
    return range(which - 1, count, of)


def main(arguments: list[str]) -> int:
    """Sweep the worlds of a family that are not on record; 1 where any on record disagrees."""
    from tests.pipeline.sweep_record import Record  # noqa: PLC0415 - it reads what this makes

    parser = argparse.ArgumentParser(description="Sweep waivers and numbers over worlds.")
    parser.add_argument("family", choices=["rules", *FAMILIES])
    parser.add_argument("--record", type=Path, required=True)
    parser.add_argument("--share", default="1/1", help="which of how many shares, as 2/3")
    parser.add_argument("--worlds", type=int, default=60, help="how many of a family without end")
    parser.add_argument("--seconds", type=float, default=1e9)
    asked = parser.parse_args(arguments)
    record = Record(asked.record)
    listed = rule_worlds() if asked.family == "rules" else []
    done, begun = record.done(asked.family), time.monotonic()
    for number in numbers(len(listed) or asked.worlds, asked.share):
        if time.monotonic() - begun > asked.seconds:
            break
        if number not in done:
            problem = listed[number] if listed else FAMILIES[asked.family](number)
            record.add(asked.family, number, sweep(problem, f"{asked.family} {number}"))
    words, told = record.summary()
    sys.stdout.write(f"{words}\n")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
