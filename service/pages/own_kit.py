"""Personal kit on the sheets: all of it once, what of it is along on a trip, what is in use."""

from __future__ import annotations

from service.pages.blocks import Lines, Table, table
from service.pages.facts import Json, PlanFacts, is_own, units_of
from service.reports.paper.things import is_in_use

OWN_KIT = "Everybody's own kit is listed on their own sheet."


def own_kit_table(facts: PlanFacts, person: str) -> Table:
    """All that a person brings, with its mass."""
    write = facts.write
    own = [unit for unit in facts.plan["taken_along"] if is_own(unit, person)]
    kg = sum(unit["count"] * unit["each_kg"] for unit in own)
    rows = [
        (_name(unit), str(unit["count"]), write.mass(unit["count"] * unit["each_kg"], 2))
        for unit in own
    ]
    caption = f"Own kit: {write.mass(kg)} {write.mass_unit}"
    return table(caption, ("What", "#Pieces", f"#{write.mass_unit}", "_Weighed"), rows)


def kit_along(facts: PlanFacts, load: Json, person: str) -> str:
    """What of the own kit is in a load, in the fewest words: all, all but some, or some."""
    all_own = {u["unit_id"]: u for u in facts.plan["taken_along"] if is_own(u, person)}
    here = [unit for unit in units_of(load) if is_own(unit, person)]
    stowed = [unit for unit in here if not is_in_use(unit)]
    if not stowed:
        return ""
    kg = facts.write.mass(sum(unit["count"] * unit["each_kg"] for unit in stowed))
    counts = dict.fromkeys(all_own, 0)
    for unit in here:
        counts[unit["unit_id"]] = counts.get(unit["unit_id"], 0) + unit["count"]
    gone = [u for u in all_own if counts[u] < all_own[u]["count"]]
    if not gone:
        words = "all of it"
    elif len(gone) <= len(here):
        words = f"all but {'; '.join(_name(all_own[unit_id]) for unit_id in gone)}"
    else:
        words = "; ".join(_name(unit) for unit in stowed)
    return f"own kit ({kg} {facts.write.mass_unit}): {words}"


def used_by(load: Json) -> str:
    """What one person has in use on a trip, which is in no load; empty for nothing."""
    return "; ".join(_name(unit) for unit in units_of(load) if is_in_use(unit))


def in_use_lines(facts: PlanFacts, trip: Json) -> list[Lines]:
    """What is worn or in use on a trip, and who has it; nothing where nothing is."""
    who: dict[str, list[str]] = {}
    for load in trip["loads"]:
        for unit in units_of(load):
            if is_in_use(unit):
                who.setdefault(_name(unit), []).append(load["person_id"])
    if not who:
        return []
    said = "; ".join(
        f"{thing}: "
        + ("everybody" if len(set(people)) == len(trip["loads"]) else _names(facts, people))
        for thing, people in who.items()
    )
    return [Lines((f"In use, in no load: {said}.",))]


def _names(facts: PlanFacts, people: list[str]) -> str:
    return ", ".join(facts.person(person) for person in dict.fromkeys(people))


def _name(unit: Json) -> str:
    """What things are called, without an id where they have a name."""
    return str(unit["name"] or unit["unit_id"])
