"""A sheet for each day: who carries what, what changes hands, and the night."""

from __future__ import annotations

from collections import Counter

from service.pages.blocks import Block, Lines, Section, table
from service.pages.facts import Json, PlanFacts, besides_own_kit, units_of, water_and_lunch
from service.pages.nights import night_blocks
from service.pages.own_kit import OWN_KIT, in_use_lines
from service.reports.paper.hand_overs import hand_overs, together

_ON_THE_WAY = "Set down and taken up on the way"


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
        blocks.append(table(_ON_THE_WAY, ("Where", "@Who", "What"), _hands(facts, trips)))
        blocks.append(_handed_over(facts, number))
    return Section(f"day-{number}", heading, (*blocks, *night_blocks(facts, number)))


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
            _in_the_pack(facts, load),
            besides_own_kit(facts, load["sled"], load["person_id"]) if load["sled_id"] else "–",
        )
        for load in trip["loads"]
    ]
    columns = ("@Who", f"#Pack {unit}", f"#Sled {unit}", "#Of cap", "In the pack", "On the sled")
    mode = trip["mode"].replace("_", " ")
    caption = f"{trip['step']}. {facts.way(trip)}, {trip['direction']}, {mode}"
    return table(caption, (*columns, "_Counted"), rows)


def _in_the_pack(facts: PlanFacts, load: Json) -> str:
    units = besides_own_kit(facts, load["pack"], load["person_id"])
    return "; ".join([*([units] if units != "–" else []), water_and_lunch(load, facts.write)])


def _counted(facts: PlanFacts, load: Json) -> Counter[str]:
    """How many there are of each thing in a load, by name; one's own without saying whose."""
    counts: Counter[str] = Counter()
    for unit in units_of(load):
        counts[facts.label(unit).removesuffix(f" of {load['person_id']}")] += unit["count"]
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
            here, there = _counted(facts, load), _counted(facts, following)
            for what, units in (("sets down", here - there), ("takes up", there - here)):
                if units:
                    rows.append(
                        (facts.place(trip["to"]), f"{facts.person(person)} {what}", _listed(units))
                    )
    return rows


def _handed_over(facts: PlanFacts, day: int) -> Block:
    """What one person takes up that another had before, that day or on a day before it."""
    given = [one for one in hand_overs(facts.outcome, facts.person) if one.day == day]
    rows = [
        (
            str(one.step),
            facts.place(one.place),
            facts.person(one.giver),
            facts.person(one.taker),
            facts.things.listed(counts),
            "on the way" if one.since_day == day else f"day {one.since_day}",
            one.reason,
        )
        for one, counts in together(tuple(given))
    ]
    columns = ("#Before trip", "Where", "@From", "@To", "What", "~Last carried", "Why")
    if not rows:
        return Lines(("Nothing goes from one person to another.",))
    return table("What changes hands", columns, rows)


def _listed(units: Counter[str]) -> str:
    return "; ".join(f"{count} × {name}" if count > 1 else name for name, count in units.items())
