"""What is left after any one loss, recomputed from a request and its answer as users see them.

    python -m tests.loss_script request.json answer.json

For every trip each pack and each sled hauled is deleted, and for every night each store where
nobody sleeps; then the stoves, shelter places, communicators, fuel and night sets are counted
that are left within reach: at the places of the party's day, or on a group's way home. Prints the
worst loss of each kind with what is needed, and ends with 1 where anything is short. Uses nothing
of the solver: only the two documents.

It is one long file so that nothing but the documents and it need be trusted.
The file is long because it may not lean on anything else.
"""

from __future__ import annotations

import json
import math
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

Json = dict[str, Any]

FUEL_HOURS, FOOD_HOURS, CACHE_NIGHTS = 72, 24, 1
UNITS = {"g": 1, "kg": 1000, "ml": 1, "l": 1000, "g/l": 1, "kg/l": 1000, "%": 1}


@dataclass(frozen=True)
class Line:
    """What is left of something after one loss, and what is needed."""

    kind: str
    event: str
    lost: str
    left: float
    needed: float

    @property
    def spare(self) -> float:
        """What is left beyond need; below 0 it falls short."""
        return self.left - self.needed


def quantity(text: str) -> float:
    """A number with its unit, in g, mL, g/L or per cent."""
    number, unit = text.split()
    return float(number) * UNITS[unit.lower()]


class Answered:
    """A request and its answer, read for counting."""

    def __init__(self, request: Json, answer: Json) -> None:
        self.request = request
        outcome = answer if "plan" in answer else answer["outcome"]
        self.plan = outcome["plan"]
        self.last_day = len(request["calendar"])
        self.team = {p["person_id"]: p.get("rope_team") for p in request["roster"]}
        self.group = {p["person_id"]: p.get("cook_group") for p in request["roster"]}
        self.items = dict(self._items())
        self.sets_in_bag = {
            s["set_id"]: s.get("sets_per_bag", 1) for s in request["menu"]["night_sets"]
        }
        self.set_fuel = {
            s["set_id"]: quantity(s["fuel"]) if "fuel" in s else None
            for s in request["menu"]["night_sets"]
        }
        self.margin = quantity(request["fuel"].get("margin", "0 %"))
        self.density = quantity(request["fuel"].get("density", "700 g/L"))
        self.containers = {c["container_id"]: c for c in request["fuel"].get("containers", [])}
        self.used = {(u["day"], u["cook_group"]): u for u in self.plan["used"]}
        self.towards_home = {leg["to"]: leg["from"] for leg in request["route"]["legs"]}

    def _items(self) -> Iterator[tuple[str, Json]]:
        for item in self.request.get("gear", []):
            yield item["item_id"], item
        kits = self.request.get("personal_kits", {})
        for person in self.request["roster"]:
            kit = person.get("personal_kit")
            own = kits.get(kit, []) if isinstance(kit, str) else (kit or [])
            for item in [*own, *person.get("extra_items", [])]:
                yield f"{person['person_id']}/{item['item_id']}", item

    # What one unit is worth

    def pieces(self, purpose: str) -> dict[str, float]:
        """Each unit of a purpose that is not worn counts one."""
        return {
            unit: 1
            for unit, item in self.items.items()
            if item.get("purpose") == purpose and item.get("needed") != "worn"
        }

    def places(self) -> dict[str, float]:
        """Each shelter counts the people whom it covers."""
        return {unit: self.items[unit].get("shelter_places", 0) for unit in self.pieces("shelter")}

    def food(self, units: Counter[str], group: str) -> float:
        """Night sets in some units of a cook group."""
        total = 0.0
        for unit, count in units.items():
            owner, _, set_id = unit.partition("/")
            if self.is_group(owner, group) and set_id in self.sets_in_bag:
                total += count * self.sets_in_bag[set_id]
        return total

    def fuel(self, units: Counter[str], masses_g: dict[str, float], group: str = "") -> float:
        """Fuel in the full and open containers among some units [mL]."""
        total = 0.0
        for unit, count in units.items():
            owner, _, rest = unit.partition("/")
            name, _, state = rest.partition("/")
            if name not in self.containers or (group and not self.is_group(owner, group)):
                continue
            container = self.containers[name]
            if not state:
                total += count * quantity(container["content"])
            elif state.startswith("open"):
                total += (masses_g[unit] - quantity(container["tare"])) * 1000 / self.density
        return total

    def is_group(self, owner: str, group: str) -> bool:
        """Whether a unit's first word is a cook group."""
        return owner == group

    def worn(self, purpose: str, people: set[str]) -> int:
        """Units of a purpose that some people wear [1]."""
        total = 0
        for unit, item in self.items.items():
            if item.get("purpose") == purpose and item.get("needed") == "worn":
                owner = unit.split("/")[0] if "/" in unit else None
                team = item.get("rope_team")
                wearers = {p for p in self.team if owner in {None, p}}
                wearers = {p for p in wearers if team in {None, self.team[p]}}
                total += item.get("count", 1) if wearers & people else 0
        return total

    # Where everything and everybody is

    def day_places(self, day: int, person: str) -> list[str]:
        """The places that a person visits on a day, in order."""
        teams = self.plan["days"][day - 1]["places"]
        team = self.team[person]
        return teams[team] if team in teams else next(iter(teams.values()))

    def sleeps(self, day: int) -> dict[str, str]:
        """Where everybody sleeps after a day."""
        return {person: self.day_places(day, person)[-1] for person in self.team}

    def stock(self, day: int) -> tuple[dict[str, Counter[str]], dict[str, float]]:
        """What stands where after the night of a day, and what one of each weighs [g]."""
        standing: dict[str, Counter[str]] = {}
        masses_g: dict[str, float] = {}
        for entry in self.plan["stock"]:
            if entry["day"] == day:
                units = standing.setdefault(entry["place"], Counter())
                for unit in entry["units"]:
                    units[unit["unit_id"]] += unit["count"]
                    masses_g[unit["unit_id"]] = unit["each_kg"] * 1000
        return standing, masses_g

    def night_fuel(self, day: int, group: str) -> float:
        """What one of a cook group burns on the night of a day, margin apart [mL]."""
        used = self.used[day, group]
        fuel = self.set_fuel.get(used["set_id"])
        if fuel is not None:
            return fuel
        return used["fuel_ml"] / (1 + self.margin / 100) / used["people"]

    def groups(self, day: int) -> list[str]:
        """The cook groups of a night."""
        return [group for its_day, group in self.used if its_day == day]

    def members(self, day: int, group: str) -> list[str]:
        """The people of a cook group, as the request or the meals of a night tell."""
        named = [p for p, its in self.group.items() if its == group]
        return named or (list(self.team) if len(self.groups(day)) == 1 else [])


def of_trips(answered: Answered) -> Iterator[Line]:
    """The loss of each pack and sled of each trip."""
    for day in range(1, answered.last_day + 1):
        standing, masses_g = answered.stock(day - 1)
        here = {person: answered.day_places(day, person)[0] for person in answered.team}
        trips = [trip for trip in answered.plan["trips"] if trip["day"] == day]
        for step in sorted({trip["step"] for trip in trips}):
            together = [trip for trip in trips if trip["step"] == step]
            for trip in together:
                for load in trip["loads"]:
                    standing[trip["from"]] -= _units(load["pack"]) + _units(load["sled"])
            for trip in together:
                for load in trip["loads"]:
                    for unit, count in (_units(load["pack"]) + _units(load["sled"])).items():
                        standing.setdefault(trip["to"], Counter())[unit] += count
                    here[load["person_id"]] = trip["to"]
            for trip in together:
                yield from _of_trip(answered, trip, standing, masses_g, here)


def _of_trip(
    answered: Answered,
    trip: Json,
    standing: dict[str, Counter[str]],
    masses_g: dict[str, float],
    here: dict[str, str],
) -> Iterator[Line]:
    day = trip["day"]
    reach = set(answered.day_places(day, trip["loads"][0]["person_id"]))
    there: Counter[str] = Counter()
    for place in reach:
        there += standing.get(place, Counter())
    people = {person for person, place in here.items() if place in reach}
    nights_left = answered.last_day - day
    event = f"day {day}, {trip['from']} to {trip['to']}"
    for load in trip["loads"]:
        carriers = [(f"pack of {load['person_id']}", load["pack"])]
        if load["sled_id"]:
            carriers.append((f"sled {load['sled_id']}", load["sled"]))
        for lost, stowed in carriers:
            units = there - _units(stowed)
            if answered.pieces("stove") and nights_left:
                yield Line("stove", event, lost, _worth(units, answered.pieces("stove")), 1)
            if answered.places():
                left = _worth(units, answered.places())
                yield Line("shelter", event, lost, left, len(people))
            if any(i.get("purpose") == "communicator" for i in answered.items.values()):
                left = _worth(units, answered.pieces("communicator"))
                left += answered.worn("communicator", people)
                yield Line("communicator", event, lost, left, 1)
            if not nights_left:
                continue
            needed = 0.0
            for group in answered.groups(day):
                eaters = len(people & set(answered.members(day, group)))
                nights = min(math.ceil(FOOD_HOURS / 24), nights_left)
                yield Line("food", event, lost, answered.food(units, group), nights * eaters)
                needed += eaters * answered.night_fuel(day, group)
            needed *= min(math.ceil(FUEL_HOURS / 24), nights_left)
            yield Line("fuel", event, lost, answered.fuel(units, masses_g), needed)


def of_caches(answered: Answered) -> Iterator[Line]:
    """The loss of each store where nobody sleeps, night by night."""
    for day in range(1, answered.last_day):
        standing, masses_g = answered.stock(day)
        sleeps = answered.sleeps(day)
        nights = min(CACHE_NIGHTS, answered.last_day - 1 - day)
        for group in answered.groups(day):
            eaters = len(answered.members(day, group))
            camp = answered.used[day, group]["place"]
            way = [camp]
            while way[-1] in answered.towards_home:
                way.append(answered.towards_home[way[-1]])
            for lost in way[1:]:
                if lost in sleeps.values() or not standing.get(lost):
                    continue
                left: Counter[str] = Counter()
                for place in way:
                    left += standing.get(place, Counter()) if place != lost else Counter()
                event = f"night {day}, {group} at {camp}"
                sets = answered.food(left, group)
                yield Line("food, cache", event, f"store at {lost}", sets, nights * eaters)
                fuel = answered.fuel(left, masses_g, group)
                needed = nights * eaters * answered.night_fuel(day, group)
                yield Line("fuel, cache", event, f"store at {lost}", fuel, needed)


def worst(lines: list[Line]) -> list[Line]:
    """Of each kind the loss that leaves least beyond need."""
    kinds = dict.fromkeys(line.kind for line in lines)
    return [min((x for x in lines if x.kind == kind), key=lambda x: x.spare) for kind in kinds]


def lines_of(request: Json, answer: Json) -> list[Line]:
    """Every loss with what it leaves."""
    answered = Answered(request, answer)
    return [*of_trips(answered), *of_caches(answered)]


def short(line: Line) -> bool:
    """Whether less is left than needed; an open can is weighed to the gram, so to 1.5 mL."""
    return line.spare < (-1.5 if line.kind.startswith("fuel") else 0)


def _units(stowed: list[Json]) -> Counter[str]:
    units: Counter[str] = Counter()
    for unit in stowed:
        units[unit["unit_id"]] += unit["count"]
    return units


def _worth(units: Counter[str], worth: dict[str, float]) -> float:
    return sum(count * worth.get(unit, 0) for unit, count in units.items())


def main(paths: list[str]) -> int:
    """Print the worst loss of each kind; 1 where any leaves too little."""
    request, answer = (json.loads(Path(path).read_text(encoding="utf-8")) for path in paths)
    lines = lines_of(request, answer)
    sys.stdout.write(f"{len(lines)} losses reckoned; of each kind the worst:\n")
    for line in worst(lines):
        verdict = "SHORT" if short(line) else "enough"
        sys.stdout.write(
            f"{line.kind:13} {line.left:8.0f} of {line.needed:6.0f} needed  {verdict}  "
            f"{line.event}, without the {line.lost}\n"
        )
    return 1 if any(short(line) for line in lines) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
