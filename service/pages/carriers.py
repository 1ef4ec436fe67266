"""Sheets about who carries: trips of each person, keepers, the index of bags, the descent."""

from __future__ import annotations

from collections.abc import Iterator

from service.pages.blocks import Block, Lines, Section, table
from service.pages.facts import Json, PlanFacts, is_own, units_of, water_and_lunch
from service.pages.own_kit import kit_along, kit_on_sled, own_kit_table, used_by
from service.reports.paper.carrying_days import Rides
from service.reports.paper.keepers import keepers_of
from service.reports.paper.things import is_in_use

_OF_ALL = ("trash/", "human-waste/")
_OF_ONE = "A thing of which there is one has a keeper, who has it on all other days."
_OF_SEVERAL = "Of several alike pieces the keeper has most; the list says who takes how many when."


def person_pages(facts: PlanFacts) -> list[Section]:
    """One section for each person: all trips with their loads, and the own kit."""
    return [
        Section(
            f"person-{index}",
            facts.person(person),
            (_trips(facts, person), own_kit_table(facts, person)),
        )
        for index, person in enumerate(facts.people, 1)
    ]


def _trips(facts: PlanFacts, person: str) -> Block:
    unit = facts.write.mass_unit
    rows = [
        (
            str(trip["day"]),
            facts.way(trip),
            facts.write.mass(load["pack_kg"]),
            facts.write.mass(load["sled_kg"]) if load["sled_id"] else "–",
            f"{100 * load['load_fraction']:.0f} %",
            _what(facts, load, person),
            used_by(load) or "–",
        )
        for trip, load in facts.loads_of(person)
    ]
    columns = ("#Day", "Way", f"#Pack {unit}", f"#Sled {unit}", "#Of cap", "What", "In use")
    return table("All trips", (*columns, "_Weighed"), rows)


def _what(facts: PlanFacts, load: Json, person: str) -> str:
    """What is in the pack, the own kit last, and then what is on the sled."""
    pack, sled = (
        [facts.said(unit) for unit in part if not is_own(unit, person) and not is_in_use(unit)]
        for part in (load["pack"], load["sled"])
    )
    kit = kit_along(facts, load, person)
    if own := kit_on_sled(load, person):
        sled.append(f"of the own kit: {own}")
    in_pack = "; ".join([*pack, water_and_lunch(load, facts.write), *([kit] if kit else [])])
    return f"{in_pack}. On the sled: {'; '.join(sled)}" if sled else in_pack


def keepers(facts: PlanFacts) -> Section:
    """Who keeps each shared item, and on which days and ways others have it."""
    rides, kept = Rides(facts.plan), {one.unit_id: one for one in keepers_of(facts.plan)}
    rows = []
    for unit in facts.plan["taken_along"]:
        unit_id = unit["unit_id"]
        if "/" in unit_id:
            continue
        keeper = kept.get(unit_id)
        if keeper is not None and keeper.count == 1:
            others = rides.others(keeper, person=facts.person, place=facts.place)
        else:
            others = rides.everybody(unit_id, person=facts.person)
        rows.append(
            (
                unit["name"] or unit_id,
                str(unit["count"]),
                facts.write.mass(unit["each_kg"], 2),
                "–" if keeper is None else facts.person(keeper.person_id),
                others or "–",
            )
        )
    mass = f"#Each {facts.write.mass_unit}"
    columns = ("Item", "#Pieces", mass, "@Keeper", "Others and when", "_Checked")
    about = Lines((_OF_ONE, _OF_SEVERAL))
    return Section("keepers", "Keepers of shared items", (about, table("", columns, rows)))


def bag_index(facts: PlanFacts) -> Section:
    """Every bag of food and every container, with who carries it when."""
    own = tuple(f"{person}/" for person in facts.people)
    rows = [
        (unit_id, name, each, carriers)
        for unit_id, name, each, carriers in _carried(facts)
        if "/" in unit_id and not unit_id.startswith((*own, *_OF_ALL))
    ]
    columns = ("Bag", "What", f"#Each {facts.write.mass_unit}", "Who carries it, by day", "_Packed")
    return Section("bags", "Index of bags and containers", (table("", columns, rows),))


def _carried(facts: PlanFacts) -> Iterator[tuple[str, str, str, str]]:
    masses = {u["unit_id"]: float(u["each_kg"]) for u in facts.plan["taken_along"]}
    units: dict[str, tuple[Json, list[str]]] = {}
    for trip in facts.plan["trips"]:
        for load in trip["loads"]:
            for unit in units_of(load):
                _, carriers = units.setdefault(unit["unit_id"], (unit, []))
                many = f" ({unit['count']})" if unit["count"] > 1 else ""
                carriers.append(f"{trip['day']} {facts.person(load['person_id'])}{many}")
    for unit_id in sorted(units):
        unit, carriers = units[unit_id]
        each_kg = masses.get(unit_id, float(unit["each_kg"]))
        yield unit_id, facts.label(unit), facts.write.mass(each_kg, 2), ", ".join(carriers)


def descent(facts: PlanFacts) -> Section:
    """The loads homeward, with their share of the body where its mass is given."""
    rows = []
    for trip in facts.plan["trips"]:
        if trip["direction"] == "homeward":
            for load in trip["loads"]:
                body = facts.body_mass_kg(load["person_id"])
                share = "–" if body is None else f"{100 * load['pack_kg'] / body:.0f} %"
                sled = facts.write.mass(load["sled_kg"]) if load["sled_id"] else "–"
                cap = f"{100 * load['load_fraction']:.0f} %"
                who, pack = facts.person(load["person_id"]), facts.write.mass(load["pack_kg"])
                rows.append((str(trip["day"]), facts.way(trip), who, pack, share, sled, cap))
    unit = facts.write.mass_unit
    columns = ("#Day", "Way", "@Who", f"#Pack {unit}", "#Of the body", f"#Sled {unit}", "#Of cap")
    made = table("Loads homeward", (*columns, "_Weighed"), rows)
    return Section("descent", "Descent", (made,))
