"""Sheets about places: stock in nights, waiting and turning round, caches with their labels."""

from __future__ import annotations

from service.pages.blocks import Cards, Lines, Section, table
from service.pages.facts import PlanFacts
from service.reports.caches import caches_of

_LAST_DAYS = {
    "last_summit_day": "Last day on which the summit can be tried:",
    "last_turn_day": "Last day on which food and fuel last for turning round:",
}
"""What a re-plan says of the days to come."""


def camp_pages(facts: PlanFacts) -> list[Section]:
    """One section for each place with a stock: what comes in and goes out, in nights."""
    sections = []
    for place in facts.places:
        rows = _stock_rows(facts, place)
        if rows:
            unit = facts.write.mass_unit
            columns = (
                "#Day",
                f"#All {unit}",
                f"#In or out {unit}",
                "Kitchen",
                "#Nights of food",
                "#Night sets",
                "#Nights of fuel",
                f"#Fuel {facts.write.volume_unit}",
                "_Sets counted",
                "_Fuel counted",
            )
            reserve = f"Reserve: {_storm_nights(facts.storm_nights(place))}."
            sections.append(
                Section(
                    f"camp-{place}",
                    f"Stock of {facts.place(place)}",
                    (Lines((reserve,)), table("After each night", columns, rows)),
                )
            )
    return sections


def _storm_nights(number: int) -> str:
    return "1 storm night" if number == 1 else f"{number} storm nights"


def _stock_rows(facts: PlanFacts, place: str) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    before = 0.0
    for night in facts.plan["stock"]:
        if night["place"] != place:
            continue
        change = night["kg"] - before
        before = night["kg"]
        sign = "+" if change >= 0 else "−"
        mass = (facts.write.mass(night["kg"]), f"{sign}{facts.write.mass(abs(change))}")
        for group in night["cook_groups"] or (None,):
            if group is None:
                rows.append((str(night["day"]), *mass, "–", "–", "–", "–", "–"))
                continue
            fuel = group["nights_of_fuel"]
            rows.append(
                (
                    str(night["day"]),
                    *mass,
                    group["cook_group"],
                    f"{group['nights_of_food']:.1f}",
                    str(group["night_sets"]),
                    "–" if fuel is None else f"{fuel:.1f}",
                    facts.write.volume(group["fuel_ml"] / 1000),
                )
            )
    return rows


def waiting(facts: PlanFacts) -> Section:
    """How long people could wait where they sleep, and when they turn round."""
    rows = []
    for night in facts.plan["stock"]:
        slept = {
            way[-1]
            for day in facts.plan["days"]
            if day["day"] == night["day"]
            for way in day["places"].values()
        }
        if night["place"] in slept:
            for group in night["cook_groups"]:
                fuel = group["nights_of_fuel"]
                nights = min(group["nights_of_food"], 1e9 if fuel is None else fuel)
                spare = nights - facts.storm_nights(night["place"])
                rows.append(
                    (
                        str(night["day"]),
                        facts.place(night["place"]),
                        group["cook_group"],
                        f"{nights:.1f}",
                        f"{max(0.0, spare):.1f}",
                    )
                )
    columns = ("#Day", "Place", "Kitchen", "#Nights that food and fuel last", "#Beyond the reserve")
    return Section(
        "waiting",
        "Waiting nights and turning round",
        (
            Lines(tuple(_turns(facts))),
            table("If you wait where you sleep", (*columns, "_Nights waited"), rows),
        ),
    )


def _turns(facts: PlanFacts) -> list[str]:
    lines = [
        f"Day {number}: turn round at {day['turn_round']}, wherever you are."
        for number, day in enumerate(facts.request["calendar"], 1)
        if isinstance(day, dict) and day.get("turn_round")
    ]
    rest = facts.outcome["rest"] or {}
    for key, words in _LAST_DAYS.items():
        if rest.get(key) is not None:
            lines.append(f"{words} {facts.day_name(rest[key])}.")
    return lines or ["No time to turn round was given. The leader sets one before each summit day."]


def cache_pages(facts: PlanFacts) -> list[Section]:
    """The caches with what is in them, and a label to cut out for each pole."""
    caches = caches_of(facts.request, facts.outcome)
    if not caches:
        return []
    rows, cards = [], []
    for cache in caches:
        units = [*cache.food, *cache.fuel, *cache.gear, *cache.waste]
        rows.append(
            (
                cache.name or cache.place,
                str(cache.left_day),
                str(cache.pick_up_day),
                facts.write.mass(cache.total_kg),
                str(cache.poles),
                "; ".join(facts.said(unit.model_dump()) for unit in units),
            )
        )
        cards += [(cache.name or cache.place, cache.label, facts.plan_id)] * cache.labels
    columns = (
        "Place",
        "#Left on day",
        "#Picked up on day",
        f"#{facts.write.mass_unit}",
        "#Poles",
        "What",
    )
    return [
        Section(
            "caches",
            "Caches",
            (table("", (*columns, "_Position"), rows), Cards(tuple(cards))),
        )
    ]
