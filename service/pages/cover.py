"""The first sheet: what this plan asks to be careful of, who goes, and the days at a glance."""

from __future__ import annotations

from service.pages.blocks import Lines, Section, Table, table
from service.pages.facts import PlanFacts

_MOST_CAUTIONS = 8
_FIRST = (
    "glacier_rules_not_asked",
    "altitude_illness",
    "crevasse_travel",
    "avalanche",
    "carbon_monoxide",
    "steep_ground",
    "descent",
    "caches",
    "aircraft",
    "cold_canisters",
    "sleds",
    "who_decides",
)
"""The cautions that stand on the first sheet, in this order, as far as the plan calls for them."""
_MOST_REMARKS = 8


def cover(facts: PlanFacts) -> Section:
    """The first sheet."""
    outcome = facts.outcome
    peak = outcome["peak"]
    days, trips = len(facts.plan["days"]), len(facts.plan["trips"])
    reference = outcome["reference"] or "this expedition"
    about = [
        f"{days} days, {len(facts.people)} people, {trips} trips.",
        f"Superseded if there is a newer plan for {reference}: then destroy these sheets.",
    ]
    if legend := _legend(facts):
        about.append(legend)
    if peak is not None:
        about.insert(
            1,
            f"Largest load: {facts.person(peak['person_id'])}, {100 * peak['load_fraction']:.1f} % "
            f"of the cap, {facts.day_name(peak['day'])}, {facts.way(peak)}.",
        )
    return Section(
        "cover",
        "At a glance",
        (
            Lines(tuple(f"! {line}" for line in first_cautions(facts))),
            Lines(tuple(about)),
            table("Remarks of the check", ("Rule", "#Times", "Worst"), _remarks(facts)),
            _days(facts),
        ),
    )


def _legend(facts: PlanFacts) -> str:
    """What the short names of places in remarks stand for; nothing where all are alike."""
    names = [(facts.place(place_id), place_id) for place_id in facts.places]
    unlike = [f"{name} ({place_id})" for name, place_id in names if name != place_id]
    return f"Places: {', '.join(unlike)}." if unlike else ""


def first_cautions(facts: PlanFacts) -> tuple[str, ...]:
    """The first sentences of the cautions that matter most, at most eight."""
    texts = {c["caution_id"]: c["text"] for c in facts.outcome["cautions"]}
    if not facts.plan["flights"]:
        texts.pop("aircraft", None)
    called_for = [name for name in _FIRST if name in texts][:_MOST_CAUTIONS]
    return tuple(f"{texts[name].partition('. ')[0].rstrip('.')}." for name in called_for)


def _remarks(facts: PlanFacts) -> list[tuple[str, ...]]:
    by_rule: dict[str, list[dict[str, object]]] = {}
    for remark in facts.outcome["check"]["remarks"]:
        by_rule.setdefault(remark["rule_id"], []).append(remark)
    rows: list[tuple[str, ...]] = [
        (
            rule_id.replace("_", " "),
            str(len(found)),
            str(max(found, key=lambda remark: float(str(remark["amount"])))["message"]),
        )
        for rule_id, found in by_rule.items()
    ]
    return sorted(rows, key=lambda row: -int(row[1]))[:_MOST_REMARKS]


def _days(facts: PlanFacts) -> Table:
    rows = []
    for day in facts.plan["days"]:
        ways = dict.fromkeys(
            " – ".join(facts.place(p) for p in places) for places in day["places"].values()
        )
        kind = day["kind"].replace("_", " ")
        rows.append((str(day["day"]), day["date"] or "", kind, " / ".join(ways), day["note"] or ""))
    return table("The days", ("#Day", "~Date", "~Kind", "Way", "Note"), rows)
