"""The night on the sheet of a day: who sleeps where, the kitchens, and what is left alone."""

from __future__ import annotations

from service.pages.blocks import Block, Lines, table
from service.pages.facts import PlanFacts
from service.reports.paper.kitchens import Kitchen, KitchenThing, Rows, kitchens
from service.reports.paper.nights import left_alone, people_of, sleepers
from service.reports.paper.origins import origin_words
from service.reports.paper.things import night_sets


def night_blocks(facts: PlanFacts, day: int) -> list[Block]:
    """All that a sheet says of the night after a day."""
    places = sleepers(facts.plan, day)
    lines = [
        f"Sleep at {facts.place(place)}: {_names(facts, who)}." for place, who in places.items()
    ]
    cooks = [kitchen for kitchen in kitchens(facts.plan) if kitchen.day == day]
    columns = ("Tonight at", "~For", "~What", "Which, and who brought it")
    return [
        Lines(tuple(lines)),
        _tonight(facts, day),
        table("Kitchens and shelter", columns, _kitchen_rows(facts, cooks)),
        table("Left alone tonight", ("Where", "What"), _left_rows(facts, day)),
    ]


def _names(facts: PlanFacts, people: tuple[str, ...]) -> str:
    if people == people_of(facts.plan):
        return "everybody"
    return ", ".join(facts.person(person) for person in people)


def _kitchen_rows(facts: PlanFacts, cooks: list[Kitchen]) -> list[tuple[str, ...]]:
    """What all at a place share, then what each cook group eats and burns."""
    rows: list[tuple[str, ...]] = []
    for place in dict.fromkeys(kitchen.place for kitchen in cooks):
        here = [kitchen for kitchen in cooks if kitchen.place == place]
        rows += _rows(facts, here[0], "all", here[0].of_all)
        for kitchen in here:
            rows += _rows(facts, kitchen, kitchen.cook_group, kitchen.own)
    return rows


def _rows(facts: PlanFacts, kitchen: Kitchen, whose: str, rows: Rows) -> list[tuple[str, ...]]:
    return [
        (
            facts.place(kitchen.place),
            whose,
            word,
            "; ".join(_thing(facts, one, kitchen.day) for one in found) or "none here",
        )
        for word, found in rows
    ]


def _thing(facts: PlanFacts, one: KitchenThing, day: int) -> str:
    what = facts.things.counted(one.unit_id, one.count)
    return origin_words(what, one.count, one.lots, tonight=day, person=facts.person)


def _left_rows(facts: PlanFacts, day: int) -> list[tuple[str, str]]:
    return [
        (
            facts.place(one.place),
            ". ".join(one.parts(facts.things, facts.person)).replace(". of ", ". Of ")
            if one.is_new
            else f"as on day {one.since}",
        )
        for one in left_alone(facts.plan)
        if one.day == day
    ]


def _tonight(facts: PlanFacts, day: int) -> Block:
    write = facts.write
    rows = []
    tonight = [used for used in facts.plan["used"] if used["day"] == day]
    for used in tonight:
        melted = _figure(facts, "water_melted", used["place"]) * used["people"]
        waste = _figure(facts, "human_waste", used["place"], day) / 1000
        at_place = sum(u["people"] for u in tonight if u["place"] == used["place"])
        rows.append(
            (
                facts.place(used["place"]),
                f"{used['cook_group']}, {_people(used['people'])}",
                f"{night_sets(used['night_sets'])} from {_bags(used['bags'])}",
                write.volume(used["fuel_ml"] / 1000),
                write.volume(melted) if melted else "–",
                write.mass(waste * used["people"] / at_place, 2) if waste else "–",
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
