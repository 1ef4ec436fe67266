"""A sheet for each day: who carries what, what changes hands, tonight's kitchen and waste."""

from __future__ import annotations

from collections import Counter

from service.pages.blocks import Block, Lines, Section, table
from service.pages.facts import Json, PlanFacts, besides_own_kit, units_of
from service.pages.own_kit import OWN_KIT, in_use_lines


def day_pages(facts: PlanFacts) -> list[Section]:
    """One section for each day of the calendar."""
    return [_day_page(facts, day) for day in facts.plan["days"]]


def _day_page(facts: PlanFacts, day: Json) -> Section:
    number = day["day"]
    trips = facts.trips_of(number)
    heading = f"{facts.day_name(number).capitalize()}: {day['kind'].replace('_', ' ')}"
    blocks: list[Block] = [Lines(tuple(_first_lines(facts, day)))]
    for trip in trips:
        blocks += [_trip_table(facts, trip), *in_use_lines(facts, trip)]
    if trips:
        blocks.append(table("What changes hands", ("Where", "@Who", "What"), _hands(facts, trips)))
    blocks.append(_tonight(facts, number))
    return Section(f"day-{number}", heading, tuple(blocks))


def _first_lines(facts: PlanFacts, day: Json) -> list[str]:
    lines = []
    for team, places in day["places"].items():
        way = " – ".join(
            f"{facts.place(p)} {facts.write.elevation(facts.elevation_m(p))}" for p in places
        )
        lines.append(f"{team}: {way}")
    hours = [
        f"{facts.place(leg['from'])} to {facts.place(leg['to'])}: {leg['hours_outbound']} outbound"
        for leg in facts.request["route"]["legs"]
        if "hours_outbound" in leg
        and any(
            {leg["from"], leg["to"]} == {trip["from"], trip["to"]}
            for trip in facts.trips_of(day["day"])
        )
    ]
    kits = [OWN_KIT] if facts.trips_of(day["day"]) else []
    return [*lines, *hours, *([day["note"]] if day["note"] else []), *kits]


def _trip_table(facts: PlanFacts, trip: Json) -> Block:
    unit = facts.write.mass_unit
    rows = [
        (
            facts.person(load["person_id"]),
            facts.write.mass(load["pack_kg"]),
            facts.write.mass(load["sled_kg"]) if load["sled_id"] else "–",
            f"{100 * load['load_fraction']:.0f} %",
            besides_own_kit(load["pack"], load["person_id"], facts.write),
            besides_own_kit(load["sled"], load["person_id"], facts.write)
            if load["sled_id"]
            else "–",
        )
        for load in trip["loads"]
    ]
    columns = ("@Who", f"#Pack {unit}", f"#Sled {unit}", "#Of cap", "In the pack", "On the sled")
    mode = trip["mode"].replace("_", " ")
    caption = f"{trip['step']}. {facts.way(trip)}, {trip['direction']}, {mode}"
    return table(caption, (*columns, "_Counted"), rows)


def _counted(load: Json) -> Counter[tuple[str, str]]:
    counts: Counter[tuple[str, str]] = Counter()
    for unit in units_of(load):
        counts[unit["unit_id"], unit["name"] or unit["unit_id"]] += unit["count"]
    return counts


def _hands(facts: PlanFacts, trips: list[Json]) -> list[tuple[str, ...]]:
    """What each person sets down at the end of a trip and takes up before the next of the day."""
    rows: list[tuple[str, ...]] = []
    for person in facts.people:
        own = [(t, load) for t in trips for load in t["loads"] if load["person_id"] == person]
        for index, (trip, load) in enumerate(own):
            following = own[index + 1][1] if index + 1 < len(own) else None
            if following is None:
                continue
            here, there = _counted(load), _counted(following)
            for what, units in (("sets down", here - there), ("takes up", there - here)):
                if units:
                    rows.append(
                        (facts.place(trip["to"]), f"{facts.person(person)} {what}", _listed(units))
                    )
    return rows


def _listed(units: Counter[tuple[str, str]]) -> str:
    return "; ".join(
        f"{count} × {name}" if count > 1 else name for (_, name), count in units.items()
    )


def _tonight(facts: PlanFacts, day: int) -> Block:
    write = facts.write
    rows = []
    for used in facts.plan["used"]:
        if used["day"] != day:
            continue
        melted = _figure(facts, "water_melted", used["place"]) * used["people"]
        waste = _figure(facts, "human_waste", used["place"], day) / 1000
        rows.append(
            (
                facts.place(used["place"]),
                f"{used['cook_group']}, {_people(used['people'])}",
                f"{used['night_sets']} × {used['set_id']} from {_bags(used['bags'])}",
                write.volume(used["fuel_ml"] / 1000),
                write.volume(melted) if melted else "–",
                write.mass(waste, 2) if waste else "–",
            )
        )
    columns = (
        "Tonight at",
        "Kitchen",
        "Food",
        f"#Fuel {write.volume_unit}",
        f"#Water to melt {write.volume_unit}",
        f"#Human waste {write.mass_unit}",
        "_Fuel used",
    )
    return table("Tonight", columns, rows)


def _bags(count: int) -> str:
    return "1 bag" if count == 1 else f"{count} bags"


def _figure(facts: PlanFacts, figure_id: str, place: str, day: int | None = None) -> float:
    for figure in facts.figures:
        about = figure["about"]
        is_there = figure["figure_id"] == figure_id and about.get("place_id") == place
        if is_there and day in (None, about.get("day")):
            return float(figure["value"])
    return 0.0


def _people(number: int) -> str:
    return "1 person" if number == 1 else f"{number} people"
