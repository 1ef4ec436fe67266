"""The figures of a plan: what it comes to, read from its outcome document alone.

Every table that compares plans takes its figures from here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from statistics import fmean
from typing import Any

from api_schema.figures_answer import PlanFiguresAnswer

Document = dict[str, Any]

HEAVY = 0.9
"""A load over this share of its cap is heavy."""

_FIGURES = tuple(PlanFiguresAnswer.model_fields)


def figures_of_outcome(outcome: Document, request: Document | None = None) -> PlanFiguresAnswer:
    """The figures of an outcome of whatever kind; the request says who is a guide."""
    known: Document = dict.fromkeys(_FIGURES) | {"outcome": outcome["outcome"]}
    if outcome["outcome"] == "solved":
        plan = outcome["plan"]
        known |= _size(plan) | _peak(outcome) | _shares(plan) | _stores(plan) | _remarks(outcome)
        known |= _costs(outcome)
        if request is not None:
            clients = sum(person.get("guide") is not True for person in request["roster"])
            known["client_days"] = clients * len(plan["days"])
    else:
        known["reason"] = _reason(outcome)
    return PlanFiguresAnswer(**known)


def kg_by_person_and_trip(plan: Document) -> dict[tuple[str, int, int, str, str], float]:
    """The gross load [kg] by person, day, step and both ends of the trip."""
    return {
        (load["person_id"], trip["day"], trip["step"], trip["from"], trip["to"]): load["total_kg"]
        for trip in plan["trips"]
        for load in trip["loads"]
    }


def _loads(plan: Document) -> Iterator[Document]:
    for trip in plan["trips"]:
        yield from trip["loads"]


def _size(plan: Document) -> Document:
    loads = list(_loads(plan))
    fly_ins = [flight for flight in plan["flights"] if flight["direction"] == "fly_in"]
    return {
        "people": len({load["person_id"] for load in loads}),
        "days": len(plan["days"]),
        "trips": len(plan["trips"]),
        "sleds": len({load["sled_id"] for load in loads if load["sled_id"] is not None}),
        "flights": len(plan["flights"]),
        "flown_kg": round(sum(flight["cargo_kg"] for flight in fly_ins), 3),
    }


def _peak(outcome: Document) -> Document:
    peak = outcome["peak"]
    if peak is None:
        return {}
    return {
        "peak": peak["load_fraction"],
        "peak_person": peak["person_id"],
        "peak_day": peak["day"],
        "peak_cap": peak["binding"],
        "gap": outcome["gap"],
    }


def _shares(plan: Document) -> Document:
    """How hard the loads are, on all and on whoever has the least cap."""
    loads = list(_loads(plan))
    if not loads:
        return {"heavy_person_trips": 0}
    weakest = plan.get("weakest")
    return {
        "heavy_person_trips": sum(load["load_fraction"] > HEAVY for load in loads),
        "mean_share": round(fmean(load["load_fraction"] for load in loads), 4),
        "weakest_person": ", ".join(weakest["person_ids"]) if weakest else None,
        "weakest_mean_share": weakest["mean_share"] if weakest else None,
    }


def _stores(plan: Document) -> Document:
    """What is taken: all of it, and food, fuel and shelters of it."""
    known = {unit["unit_id"]: unit for unit in plan.get("units", ())}
    taken = plan["taken_along"]
    if not known:
        return {"taken_kg": _kg(taken)}

    def of_kind(kind: str) -> list[Document]:
        return [unit for unit in taken if known[unit["unit_id"]]["kind"] == kind]

    food, fuel = of_kind("food"), of_kind("fuel")
    return {
        "taken_kg": _kg(taken),
        "food_kg": _kg(food),
        "night_sets": sum(u["count"] * (known[u["unit_id"]]["night_sets"] or 0) for u in food),
        "food_bags": sum(unit["count"] for unit in food),
        "fuel_l": round(
            sum(u["count"] * (known[u["unit_id"]]["fuel_ml"] or 0) for u in fuel) / 1000, 3
        ),
        "fuel_containers": sum(unit["count"] for unit in fuel),
        "shelters": sum(
            unit["count"] for unit in taken if known[unit["unit_id"]]["purpose"] == "shelter"
        ),
    }


def _kg(units: Iterable[Document]) -> float:
    return round(sum(float(unit["count"] * unit["each_kg"]) for unit in units), 3)


def _costs(outcome: Document) -> Document:
    """Sums by kind; nothing where no price was given, which is not the same as nought."""
    costs = outcome.get("costs")
    if costs is None:
        return {}
    currency = costs["currency"]
    names = {"sled": "cost_sleds", "flight": "cost_flights"}
    found: Document = {"cost_total": f"{costs['total']} {currency}"}
    for one in costs["kinds"]:
        if one["total"] is not None:
            found[names.get(one["kind"], f"cost_{one['kind']}")] = f"{one['total']} {currency}"
    missing = [f"{one['kind']} {one['without_price']}" for one in costs["kinds"]]
    found["without_price"] = ", ".join(text for text in missing if not text.endswith(" 0")) or None
    return found


def cost_difference(one: str | None, other: str | None) -> str | None:
    """The second sum minus the first, with its currency; None where they cannot be compared."""
    before, currency = (one or "").partition(" ")[::2]
    after, other_currency = (other or "").partition(" ")[::2]
    if not before or not after or currency != other_currency or before == after:
        return None
    return f"{Decimal(after) - Decimal(before):+.2f} {currency}"


def _remarks(outcome: Document) -> Document:
    kinds = [remark["kind"] for remark in outcome["check"]["remarks"]]
    return {
        "preferences_broken": kinds.count("preference"),
        "advisories": kinds.count("advisory"),
    }


def _what_helps(outcome: Document) -> str:
    """The change that costs least of those that were shown to help, as a sentence."""
    helping = (outcome.get("diagnosis") or {}).get("changes_that_help") or []
    if not helping or helping[0]["is_decision"]:
        return ""
    return f" What would help: {' and '.join(one['text'] for one in helping[0]['changes'])}."


def _reason(outcome: Document) -> str:
    if outcome["outcome"] == "infeasible":
        conflicts = outcome["conflicts"]
        others = len(conflicts) - 1
        more = f" (and {others} more cause{'s' if others > 1 else ''})" if others > 0 else ""
        reason = f"{conflicts[0]['message']}{more}" if conflicts else "It cannot keep all rules."
        return reason + _what_helps(outcome)
    if outcome["outcome"] == "no_plan_in_time":
        return "No plan was found in the time allowed. There may be one."
    return str(outcome["detail"])
