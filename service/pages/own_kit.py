"""Personal kit on the sheets: all of it once, what of it is along on a trip, what is in use."""

from __future__ import annotations

from service.pages.blocks import Lines, Table, table
from service.pages.facts import Json, PlanFacts, is_own, units_of
from service.reports.paper.things import is_in_use

OWN_KIT = "Everybody's own kit is listed on their own sheet."


def own_kit_table(facts: PlanFacts, person: str) -> Table:
    """All that a person brings, with its mass, and what of it is with them on every trip."""
    write = facts.write
    own = [unit for unit in facts.plan["taken_along"] if is_own(unit, person)]
    always = on_every_trip(facts, person)
    kg = sum(unit["count"] * unit["each_kg"] for unit in own)
    rows = [
        (
            _name(unit),
            str(unit["count"]),
            write.mass(unit["count"] * unit["each_kg"], 2),
            "every trip" if unit["unit_id"] in always else "some trips",
        )
        for unit in own
    ]
    caption = f"Own kit: {write.mass(kg)} {write.mass_unit}"
    columns = ("What", "#Pieces", f"#{write.mass_unit}", "~With you on", "_Weighed")
    return table(caption, columns, rows)


def on_every_trip(facts: PlanFacts, person: str) -> frozenset[str]:
    """The unit ids of somebody's own things that are with them on every trip, in use or not."""
    along = [
        {unit["unit_id"] for unit in units_of(load) if is_own(unit, person)}
        for _, load in facts.loads_of(person)
    ]
    return frozenset(set.intersection(*along)) if along else frozenset()


def kit_along(facts: PlanFacts, load: Json, person: str) -> str:
    """What of the own kit is in a load, in few words: all but some, or every trip's and some."""
    own = {u["unit_id"]: u for u in facts.plan["taken_along"] if is_own(u, person)}
    here = [unit for unit in units_of(load) if is_own(unit, person)]
    stowed = [unit for unit in here if not is_in_use(unit)]
    if not stowed:
        return ""
    always = on_every_trip(facts, person)
    kg = sum(unit["count"] * unit["each_kg"] for unit in stowed)
    sled_kg = sum(unit["count"] * unit["each_kg"] for unit in load["sled"] if unit in stowed)
    write = facts.write
    part = f", {write.mass(sled_kg)} {write.mass_unit} of it on the sled" if sled_kg else ""
    begin = f"own kit ({write.mass(kg)} {write.mass_unit}{part})"
    gone = [unit for unit_id, unit in own.items() if unit_id not in {u["unit_id"] for u in here}]
    more = [unit for unit in stowed if unit["unit_id"] not in always]
    if not gone:
        return f"{begin}: all of it"
    if len(gone) <= len(more):
        return f"{begin}: all but {'; '.join(map(_name, gone))}"
    if more:
        return f"{begin}: what is on every trip, and {'; '.join(map(_name, more))}"
    return f"{begin}: what is on every trip"


def kit_on_sled(load: Json, person: str) -> str:
    """What of the own kit is on the sled; empty for nothing."""
    own = (u for u in load["sled"] if is_own(u, person) and not is_in_use(u))
    return "; ".join(map(_name, own))


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
