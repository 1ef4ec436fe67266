"""Sheets for flights and for bad days: manifests, the worst carriers, leaving early."""

from __future__ import annotations

from service.pages.blocks import Block, Lines, Section, table
from service.pages.facts import Json, PlanFacts, units_of
from service.reports.manifest import PILOT_DECIDES


def flight_pages(facts: PlanFacts) -> list[Section]:
    """A manifest for each flight."""
    sections = []
    for index, flight in enumerate(facts.plan["flights"], 1):
        write = facts.write
        people = [(facts.person(p["person_id"]), write.mass(p["kg"])) for p in flight["people"]]
        cargo = [(facts.said(u), write.mass(u["count"] * u["each_kg"], 2)) for u in flight["units"]]
        unit = write.mass_unit
        aboard = "is" if flight["fuel_aboard"] else "is not"
        total = write.mass(flight["people_kg"] + flight["cargo_kg"])
        payload = write.mass(flight["payload_kg"])
        lines = (
            PILOT_DECIDES,
            f"Payload {payload} {unit}, people and cargo {total} {unit}.",
            f"{len(people)} of {flight['seats']} seats. Fuel {aboard} aboard.",
        )
        blocks: tuple[Block, ...] = (
            Lines(lines),
            table("People", ("@Who", f"#{unit}", "_Weighed"), people),
            table("Cargo", ("What", f"#{unit}", "_Weighed"), cargo),
        )
        way = flight["direction"].replace("_", "-")
        sections.append(Section(f"flight-{index}", f"Flight {flight['flight_id']}, {way}", blocks))
    return sections


def losses(facts: PlanFacts) -> Section:
    """For each trip the person whose loss costs most food and fuel, and the check's remarks."""
    rows = []
    for trip in facts.plan["trips"]:
        worst = max(trip["loads"], key=lambda load: _supplies_kg(facts, load), default=None)
        if worst is not None and _supplies_kg(facts, worst) > 0:
            rows.append(
                (
                    str(trip["day"]),
                    facts.way(trip),
                    facts.person(worst["person_id"]),
                    facts.write.mass(_supplies_kg(facts, worst)),
                    "; ".join(facts.said(u) for u in units_of(worst) if _is_supply(facts, u)),
                )
            )
    unit = facts.write.mass_unit
    columns = ("#Day", "Way", "@Worst carrier", f"#Food and fuel {unit}", "What goes with the load")
    remarks = [
        remark["message"]
        for remark in facts.outcome["check"]["remarks"]
        if any(word in remark["rule_id"] for word in ("loss", "evacu", "lost", "left_with"))
    ]
    lines = (
        "If somebody falls into a crevasse, the load may be lost as well.",
        "The table names the load of each trip with most food and fuel in it.",
        *remarks[:12],
    )
    made = table("The worst carrier of each trip", columns, rows)
    return Section("losses", "Single loss and evacuation", (Lines(lines), made, *_leaving(facts)))


def _is_supply(facts: PlanFacts, unit: Json) -> bool:
    """Whether a unit is food or fuel of a cook group: its id begins with the group's."""
    groups = {used["cook_group"] for used in facts.plan["used"]}
    return str(unit["unit_id"]).partition("/")[0] in groups and "/" in unit["unit_id"]


def _supplies_kg(facts: PlanFacts, load: Json) -> float:
    return float(sum(u["count"] * u["each_kg"] for u in units_of(load) if _is_supply(facts, u)))


def _leaving(facts: PlanFacts) -> list[Block]:
    """The people who may have to leave early, with room for what is decided."""
    rows = [
        (facts.person(one["person"]), facts.day_name(one["day"]) if "day" in one else "every day")
        for one in facts.request.get("evacuations", ())
    ]
    if not rows:
        return []
    return [table("Checked whether they could leave early", ("@Who", "When", "_Decided"), rows)]
