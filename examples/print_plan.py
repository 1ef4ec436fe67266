"""Prints an answer of POST /v1/plans on paper or for a terminal, at most 100 columns wide.

`python examples/print_plan.py answer.json`, or the answer on standard input. It exits with 1
where the answer holds no plan, after saying why. It needs this repository and nothing installed.

The file is long because it is one program that runs without anything installed.
"""

from __future__ import annotations

import json
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from service.reports.paper.sheet_lines import Sheet, repeats
from service.reports.paper.things import Things, counts_of
from service.translate.write.cautions import STANDING

Json = dict[str, Any]

WIDTH = 100
BAR = 20
MOST_OTHERS = 5
NOT_JUDGED = "glacier_rules_not_asked"
"""The caution that stands at the top."""

GOALS = {
    "peak_load": ("peak load, as a share of its cap", 1e-2, "%"),
    "hard_days": ("hard trips beside the peak, above 90 %", 1e-2, "%, weighted"),
    "mass_ascent": ("mass carried x ascent", 1e-3, "kg m"),
    "closeness": ("changes against the former plan", 1, "units with others"),
    "preferences": ("preferences not met", 1, "in all"),
    "swaps": ("swaps: one sets down, another takes up", 1, "weighted units"),
    "repackings": ("repackings between pack and sled", 1, "weighted units"),
}
"""Goals in plain words, with what turns their unit into the one that is printed."""

REMARKS = {
    "advisory": "Advisories: look twice",
    "preference": "Preferences not met (the plan is valid)",
}
"""Kinds of remarks, each with its heading."""


def plan_lines(outcome: Json) -> Iterator[str]:
    """A solved outcome, line by line."""
    plan = outcome["plan"]
    sheet = Sheet(outcome)
    yield from _title(outcome, plan)
    yield from _called_for(outcome)
    yield from _heading("Keepers: who has each single thing, and when others have it")
    yield from sheet.keepers()
    if bundles := list(sheet.bundles()):
        yield from _heading("Small alike things: who carries how many of them when")
        yield from bundles
    yield from _heading("Own kit: with everybody on every trip, and what it weighs")
    yield from sheet.own_kit()
    yield from _loads(plan, outcome["peak"], sheet)
    yield from _stock(plan)
    yield from _flights(plan)
    yield from _containers(plan)
    yield from _totals(plan)
    yield from _cautions(outcome, "Cautions for every plan", standing_only=True)
    yield from _remarks(outcome["check"]["remarks"])
    yield from _quality(outcome, plan)


def refusal_lines(answer: Json) -> Iterator[str]:
    """An answer without a plan, line by line: a refused request, or an outcome of another kind."""
    outcome = answer.get("outcome")
    if outcome is None:
        yield f"No plan: {answer.get('title', answer.get('state', 'the answer is not a plan'))}"
        for fault in answer.get("errors", ()):
            yield from _wrapped(f"{fault['pointer'] or '(whole body)'}: {fault['detail']}")
        if not answer.get("errors") and answer.get("detail"):
            yield from _wrapped(answer["detail"])
        return
    yield from _first_of_all(outcome)
    if outcome["outcome"] == "infeasible":
        yield "No plan: this request cannot keep all of these rules."
        for conflict in outcome["conflicts"]:
            yield from _conflict(conflict)
        seconds = outcome.get("solve", {"seconds": {}})["seconds"]
        yield f"Found in {sum(seconds.values()):.1f} s."
    elif outcome["outcome"] == "no_plan_in_time":
        yield "No plan was found in the time allowed. There may be one: allow more time."
    else:
        yield f"No plan: the service failed ({outcome['code']}). {outcome['detail']}"
    yield from _cautions(outcome)


def _conflict(conflict: Json) -> Iterator[str]:
    """One cause: the worst place, a few of the others, and what would be allowed instead."""
    pointer = f" ({conflict['pointer']})" if conflict["pointer"] else ""
    yield from _wrapped(f"{conflict['rule_id']}: {conflict['message']}{pointer}")
    for other in conflict["more"][:MOST_OTHERS]:
        yield from _wrapped(f"  also: {other['message']}")
    if len(conflict["more"]) > MOST_OTHERS:
        yield from _wrapped(f"  and {len(conflict['more']) - MOST_OTHERS} times more")
    for remedy in conflict["remedies"]:
        decision = "a decision of the leader, after all else: " if remedy["is_decision"] else ""
        yield from _wrapped(f"  allowed instead: {decision}{remedy['text']}")


def _title(outcome: Json, plan: Json) -> Iterator[str]:
    yield outcome["title"] or outcome["reference"] or "A plan"
    people = {load["person_id"] for trip in plan["trips"] for load in trip["loads"]}
    yield from _first_of_all(outcome)
    start = f" from {outcome['start_date']}" if outcome["start_date"] else ""
    yield f"{len(plan['days'])} days{start}, {len(people)} people, {len(plan['trips'])} trips"


def _first_of_all(outcome: Json) -> Iterator[str]:
    """What was not checked at all, which no plan may hide below its loads."""
    for caution in outcome.get("cautions", ()):
        if caution["caution_id"] == NOT_JUDGED:
            yield from _wrapped(f"NOT CHECKED: {caution['text']}")


def _called_for(outcome: Json) -> Iterator[str]:
    """The cautions that this plan calls for, before anything that one might carry away."""
    called = [c for c in outcome["cautions"] if c["caution_id"] not in {*STANDING, NOT_JUDGED}]
    if called:
        yield from _heading("Cautions that this plan calls for")
        for caution in called:
            yield from _wrapped(f"- {caution['text']}")


def _loads(plan: Json, peak: Json | None, sheet: Sheet) -> Iterator[str]:
    yield from _heading("Day by day: gross kg, the cap in kg, and the things by name")
    for day in plan["days"]:
        date = f"  {day['date']}" if day["date"] else ""
        note = f"  ({day['note']})" if day["note"] else ""
        yield ""
        yield f"Day {day['day']}{date}  {day['kind'].replace('_', ' ')}{note}"[:WIDTH]
        for trip in plan["trips"]:
            if trip["day"] == day["day"]:
                yield from _trip(trip, peak, sheet)
        yield from sheet.night(day["day"])


def _trip(trip: Json, peak: Json | None, sheet: Sheet) -> Iterator[str]:
    yield f"  {trip['from']} to {trip['to']}, {trip['mode'].replace('_', ' ')}"
    yield from sheet.changes(trip["day"], trip["step"])
    for load in trip["loads"]:
        yield _load(trip, load, peak)
        yield from sheet.load(load)


def _load(trip: Json, load: Json, peak: Json | None) -> str:
    """One person's gross load, with a bar for its share of the cap."""
    sled = " " * 20
    if load["sled_id"] is not None:
        sled = f"sled {load['sled_kg']:5.1f} of {load['sled_cap_kg']:5.1f} "
    share = load["load_fraction"]
    filled = min(BAR, round(BAR * share))
    bar = "#" * filled + "." * (BAR - filled)
    is_peak = peak is not None and (peak["person_id"], peak["day"], peak["step"]) == (
        load["person_id"],
        trip["day"],
        trip["step"],
    )
    return (
        f"    {load['person_id'][:18]:18} pack {load['pack_kg']:5.1f} of "
        f"{load['pack_cap_kg']:5.1f}   {sled}  {share:6.1%} {bar}{' peak' if is_peak else ''}"
    )


def _stock(plan: Json) -> Iterator[str]:
    yield from _heading("Stock: how many nights (n) it lasts for the whole cook group")
    yield "A place is listed on the nights on which its stock differs from the night before."
    yield (
        f"{'after':8} {'place':14} {'total kg':>9}  {'cook group':20} {'food':>10} {'fuel':>10}"
        f" {'night sets':>11} {'fuel':>8}"
    )
    before: dict[str, Json] = {}
    for night in plan["stock"]:
        is_old = repeats(night, before.get(night["place"]))
        before[night["place"]] = night
        if is_old:
            continue
        when = "start" if night["day"] == 0 else f"day {night['day']}"
        row = f"{when:8} {night['place'][:14]:14} {night['kg']:9.1f}"
        groups = night["cook_groups"]
        if not groups:
            yield row
        for group in groups:
            fuel = group["nights_of_fuel"]
            burns = "none burnt" if fuel is None else f"{fuel:.1f} n"
            if "+" in group["cook_group"]:
                burns = "kitchen's"
            yield (
                f"{row}  {group['cook_group'][:20]:20} {group['nights_of_food']:8.1f} n "
                f"{burns:>10} {group['night_sets']:11} {group['fuel_ml'] / 1000:6.2f} L"
            )


def _flights(plan: Json) -> Iterator[str]:
    if not plan["flights"]:
        return
    things = Things(plan)
    yield from _heading("Flights: people and cargo, and the payload")
    for flight in plan["flights"]:
        people = [person["person_id"] for person in flight["people"]]
        yield (
            f"{flight['flight_id'][:18]:18} {flight['direction'].replace('_', '-'):7}  people "
            f"{flight['people_kg']:6.1f} + cargo {flight['cargo_kg']:6.1f} of "
            f"{flight['payload_kg']:7.1f} kg  {flight['load_fraction']:6.1%}  "
            f"{len(people)} of {flight['seats']} seats{'  FUEL' if flight['fuel_aboard'] else ''}"
        )
        yield from _wrapped(f"  {', '.join(people) or 'nobody'}")
        cargo = things.listed(counts_of(flight["units"]))
        yield from _wrapped(f"  {cargo or 'no cargo'}")


def _containers(plan: Json) -> Iterator[str]:
    """Why each fuel container is taken; a re-plan says nothing of it."""
    if plan["containers"]:
        yield from _heading("Fuel containers: why each is taken, and what breaks without one")
    for reason in plan["containers"]:
        yield from _wrapped(f"- {reason['say']}")


def _totals(plan: Json) -> Iterator[str]:
    yield from _heading("Totals")
    taken, down = (
        sum(unit["count"] * unit["each_kg"] for unit in plan[part])
        for part in ("taken_along", "comes_down")
    )
    sets = sum(night["night_sets"] for night in plan["used"])
    litres = sum(night["fuel_ml"] for night in plan["used"]) / 1000
    yield f"  taken along {taken:.1f} kg (plus water and the first lunch)"
    yield f"  used        {sets} night sets, {litres:.2f} L of fuel"
    yield f"  comes down  {down:.1f} kg"


def _quality(outcome: Json, plan: Json) -> Iterator[str]:
    yield from _heading("How good the plan is")
    peak, greedy, bound = outcome["peak"], outcome["greedy_peak"], outcome["bound"]
    if peak is not None and bound is not None:
        by_hand = "no plan found" if greedy is None else f"{greedy:.2%}"
        yield f"  peak load: {peak['load_fraction']:.2%}. Hand-packing heuristic: {by_hand}"
        if greedy is None and outcome["greedy_reason"]:
            yield from _wrapped(outcome["greedy_reason"])
        proven = "proven: no plan has a lower peak" if outcome["proven"] else "not proven"
        yield f"  lower bound {bound:.2%}, gap {outcome['gap'] or 0:.2%}, {proven}"
        yield from _wrapped(_binding(peak, plan))
    for goal in outcome["goals"][1:]:
        words, factor, unit = GOALS[goal["goal_id"]]
        least = "" if goal["bound"] is None else f", lower bound {goal['bound'] * factor:,.0f}"
        proven = "proven" if goal["proven"] else "not proven"
        yield f"  {words}: {goal['value'] * factor:,.0f} {unit}{least}, {proven}"
    if plan["weakest"]:
        yield from _wrapped(plan["weakest"]["say"])
    check, seconds = outcome["check"], sum(outcome["solve"]["seconds"].values())
    verdict = "passed" if check["passed"] else "FAILED"
    yield (
        f"  independent check: {verdict}, {check['rules_checked']} rules, "
        f"{len(check['findings'])} findings, {len(check['remarks'])} remarks; "
        f"solved in {seconds:.1f} s"
    )


def _binding(peak: Json, plan: Json) -> str:
    """Where the peak load is: whose, on which trip, in kilograms."""
    load = next(
        load
        for trip in plan["trips"]
        for load in trip["loads"]
        if (trip["day"], trip["step"], load["person_id"])
        == (peak["day"], peak["step"], peak["person_id"])
    )
    kind = peak["binding"]
    together = kind in ("total", "limit")
    what = "pack and sled together" if together else f"the {kind}"
    cap = {"total": "", "limit": f" of {load['load_limit_kg'] or 0:.1f}"}.get(
        kind, f" of {load.get(f'{kind}_cap_kg', 0):.1f}"
    )
    kg = load["total_kg" if together else f"{kind}_kg"]
    return (
        f"where the peak is: {what} of {peak['person_id']} on day {peak['day']}, {peak['from']} to "
        f"{peak['to']}, {kg:.1f}{cap} kg"
    )


def _cautions(
    outcome: Json, heading: str = "Cautions", *, standing_only: bool = False
) -> Iterator[str]:
    yield from _heading(heading)
    for caution in outcome["cautions"]:
        if caution["caution_id"] in STANDING or not standing_only:
            yield from _wrapped(f"- {caution['text']}")
    yield ""
    yield from _wrapped(
        f"{len(outcome['assumptions'])} values were not given, so defaults were used. The answer "
        "lists each under assumptions, with its source."
    )


def _remarks(remarks: list[Json]) -> Iterator[str]:
    """One line for each rule: its first remark, how many more there are, the leader's reason."""
    by_kind: dict[str, dict[str, list[Json]]] = {"advisory": {}, "preference": {}}
    for remark in remarks:
        by_kind[remark["kind"]].setdefault(remark["rule_id"], []).append(remark)
    for kind, heading in REMARKS.items():
        if not by_kind[kind]:
            continue
        yield from _heading(heading)
        for rule_id, found in by_kind[kind].items():
            more = f" (and {len(found) - 1} more)" if len(found) > 1 else ""
            reason = f" The leader's reason: {found[0]['reason']}" if found[0]["reason"] else ""
            yield from _wrapped(f"- {rule_id}: {found[0]['message']}{more}{reason}")


def _heading(text: str) -> Iterator[str]:
    yield ""
    yield text
    yield "-" * len(text)


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ")


def main(arguments: list[str]) -> int:
    """Print the answer in the named file or on standard input; gives the exit status."""
    text = Path(arguments[0]).read_text(encoding="utf-8") if arguments else sys.stdin.read()
    answer: Json = json.loads(text)
    is_solved = answer.get("outcome_kind") == "solved"
    for line in plan_lines(answer["outcome"]) if is_solved else refusal_lines(answer):
        print(line)
    return 0 if is_solved else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
