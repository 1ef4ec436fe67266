"""Seeded expeditions of five sizes for the benchmarks, with every rule in force.

The whole party moves together up a line of camps: so many carries on each leg, then the
move, rest days in between, a summit day, and home again, relayed where no sled goes. Each
person has about 22 kg of their own; a person-night is 0.80 to 0.95 kg of food and 0.15 to
0.25 L of fuel; sleds go on the lower legs; one to three nights are kept in reserve at the
camps. The masses and volumes are typical of such gear (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from random import Random

from solver.problem import (
    Calendar,
    Caps,
    Container,
    CookGroup,
    Day,
    Direction,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Person,
    Place,
    PlaceKind,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Sled,
    Visit,
    Waste,
)


@dataclass(frozen=True)
class Size:
    """How large an expedition is; `carries[k]` is the number of carries on leg k."""

    name: str
    people: int
    days: int
    pieces: int
    carries: tuple[int, ...]
    sled_legs: int


SIZES: tuple[Size, ...] = (
    Size("small", 3, 12, 36, (0, 1, 1), 1),
    Size("medium", 6, 21, 80, (1, 1, 2, 1), 2),
    Size("large", 12, 30, 150, (1, 1, 2, 1, 1), 3),
    Size("xl", 24, 45, 300, (1, 2, 2, 2, 2, 1), 3),
    Size("xxl", 40, 60, 600, (2, 2, 2, 3, 2, 2, 2), 4),
)


def size_named(name: str) -> Size:
    """The size of that name; KeyError when there is none."""
    return {size.name: size for size in SIZES}[name]


def expedition(size: Size, seed: int) -> Problem:
    """The expedition of a size and a seed; the same two give the same expedition."""
    return _Expedition(size, Random(f"{size.name} {seed}")).problem()


@dataclass
class _Expedition:
    """One expedition in the making."""

    size: Size
    chance: Random

    def problem(self) -> Problem:
        legs = len(self.size.carries)
        self.camps = [f"c{number}" for number in range(legs + 1)]
        self.high = self.camps[self.size.sled_legs]
        # Rope teams and kitchens are one and the same: three or four people each.
        people = range(self.size.people)
        teams = max(1, self.size.people // 4)
        self.team_of = {n: f"t{n % teams + 1}" for n in people}
        self.teams = [f"t{number + 1}" for number in range(teams)]
        sets = [night_set for team in self.teams for night_set in self._night_sets(team)]
        return Problem(
            route=self._route(),
            calendar=self._calendar(),
            roster=tuple(self._person(n) for n in people),
            sleds=tuple(self._sled(n) for n in people),
            gear=(*self._personal_kit(), *self._shared_kit()),
            cook_groups=tuple(self._kitchen(team) for team in self.teams),
            night_sets=tuple(sets),
            reserves=tuple(self._reserves()),
            waste=Waste(waste_g_per_person_night=150),
            fuel_density_g_per_l=720,
            fuel_margin_percent=10,
        )

    # Where and when

    def _route(self) -> Route:
        places = [Place("c0", 2200, PlaceKind.AIRSTRIP)]
        places += [Place(c, 2200 + 450 * n) for n, c in enumerate(self.camps[1:], start=1)]
        places.append(Place("summit", places[-1].elevation_m + 900, PlaceKind.SUMMIT))
        legs = []
        for number, (low, high) in enumerate(pairwise(self.camps)):
            if number < self.size.sled_legs:
                mode, up, down = LegMode.SLED, self.chance.choice((100, 90, 80)), 90
            else:
                steep = number == self.size.sled_legs and len(self.camps) > 5
                mode, up, down = LegMode.FIXED_ROPE if steep else LegMode.PACK, 100, 100
            legs.append(Leg(f"{low}-{high}", low, high, mode, up, down))
        legs.append(Leg("summit-day", self.camps[-1], "summit", LegMode.SUMMIT))
        return Route(tuple(places), tuple(legs))

    def _calendar(self) -> Calendar:
        days: list[tuple[str, ...]] = []
        rests: list[int] = []
        for carries, (low, high) in zip(self.size.carries, pairwise(self.camps), strict=True):
            days += [(low, high, low)] * carries
            days.append((low, high))
            rests.append(len(days))
        top = self.camps[-1]
        days.append((top, "summit", top))
        rests.append(len(days))
        for number in reversed(range(len(self.size.carries))):
            low, high = self.camps[number], self.camps[number + 1]
            days.append((high, low) if number < self.size.sled_legs else (high, low, high, low))
        missing = self.size.days - len(days)
        if missing < 0:
            raise ValueError(f"{self.size.name} needs {len(days)} days and has {self.size.days}")
        # Rest and weather days wait before the next leg, the higher camps first.
        waits = [rests[-1 - number % len(rests)] for number in range(missing)]
        for at in sorted(waits, reverse=True):
            days.insert(at, (days[at - 1][-1],))
        return Calendar(tuple(Day((Visit(tuple(self.teams), places),)) for places in days))

    # Who

    def _person(self, number: int) -> Person:
        chance = self.chance
        pack_g = 100 * chance.randint(240, 290)
        sled_g = 100 * chance.randint(330, 420)
        steep = tuple(
            (mode, way, pack_g + extra_g)
            for mode in (LegMode.PACK, LegMode.FIXED_ROPE)
            for way, extra_g in ((Direction.OUTBOUND, 0), (Direction.HOMEWARD, 3000))
        )
        return Person(
            person_id=f"m{number + 1}",
            caps=Caps(pack_g, sled_g, total_g=pack_g + sled_g - 3000, pack_by_leg=steep),
            pack_volume_ml=1000 * chance.randint(95, 110),
            rope_team_id=self.team_of[number],
            cook_group_id=self.team_of[number],
            water_g=1500,
            first_lunch_g=200,
        )

    def _sled(self, number: int) -> Sled:
        room_ml = 1000 * self.chance.randint(150, 190)
        return Sled(f"s{number + 1}", f"m{number + 1}", 3500, 50_000, room_ml)

    # What

    def _about(self, value: int) -> int:
        """A whole number within a tenth of a value."""
        return round(value * self.chance.uniform(0.9, 1.1))

    def _personal_kit(self) -> list[Item]:
        nightly, trips = Need(NeedKind.EVERY_NIGHT), Need(NeedKind.EVERY_TRIP)
        above = Need(NeedKind.EVERY_NIGHT, from_place=self.high, may_go_ahead=True)
        steep = Need(NeedKind.EVERY_TRIP, from_place=self.high, may_go_ahead=True)
        in_use = (LegMode.FIXED_ROPE, LegMode.SUMMIT)
        # Day kit, sleeping bag, mats, spare clothes, own things, parka, overboots, tools: 22 kg.
        kinds = (
            ("day-kit", 4500, 14_000, trips, ()),
            ("sleeping-bag", 2200, 18_000, nightly, ()),
            ("mats", 1300, 6_000, nightly, ()),
            ("clothes", 2700, 9_000, nightly, ()),
            ("own-things", 5000, 12_000, Need(NeedKind.EVERY_NIGHT, up_to=self.high), ()),
            ("parka", 1800, 9_000, above, ()),
            ("overboots", 1500, 6_000, above, ()),
            ("climbing-kit", 3000, 5_000, steep, in_use),
        )
        return [
            Item(
                item_id=name,
                mass_g=self._about(mass_g),
                volume_ml=self._about(volume_ml),
                need=need,
                owner_id=f"m{number + 1}",
                in_use_on=in_use,
            )
            for number in range(self.size.people)
            for name, mass_g, volume_ml, need, in_use in kinds
        ]

    def _shared_kit(self) -> list[Item]:
        nightly, trips = Need(NeedKind.EVERY_NIGHT), Need(NeedKind.EVERY_TRIP)
        items: list[Item] = []

        def add(
            name: str,
            mass_g: int,
            volume_ml: int,
            need: Need,
            *,
            team: str | None = None,
            apart: str | None = None,
            in_use: tuple[LegMode, ...] = (),
        ) -> None:
            items.append(
                Item(
                    item_id=f"{name}-{len(items) + 1}",
                    mass_g=self._about(mass_g),
                    volume_ml=self._about(volume_ml),
                    need=need,
                    rope_team_id=team,
                    apart_kind=apart,
                    in_use_on=in_use,
                )
            )

        for team in self.teams:
            kind = f"{team}-"
            add("tent-body", 3200, 9_000, nightly, team=team, apart=f"{kind}shelter")
            add("tent-fly", 2100, 7_000, nightly, team=team)
            add("bivy-shelter", 900, 3_000, trips, team=team, apart=f"{kind}shelter")
            add("stove", 500, 1_500, nightly, team=team, apart=f"{kind}stove")
            add("stove", 500, 1_500, nightly, team=team, apart=f"{kind}stove")
            add("pots", 1100, 6_000, nightly, team=team)
            add("rope", 3000, 7_000, trips, team=team, in_use=(LegMode.SLED, LegMode.SUMMIT))
            add("rescue-kit", 1700, 3_000, trips, team=team)
        add("communicator", 400, 500, trips, apart="communicator")
        add("communicator", 400, 500, trips, apart="communicator")
        add("medical-kit", 1200, 3_000, trips)
        add("drag-tarp", 1100, 4_000, Need(NeedKind.AT_PLACE, up_to=self.high, may_go_ahead=True))
        more = (
            ("fixed-line", 900, 2_500, Need(NeedKind.AT_PLACE, up_to=self.high, may_go_ahead=True)),
            ("anchors", 700, 900, Need(NeedKind.EVERY_NIGHT, self.high, may_go_ahead=True)),
            ("shovel", 700, 2_500, Need(NeedKind.EVERY_NIGHT)),
            ("saw", 400, 1_200, Need(NeedKind.EVERY_NIGHT)),
            ("wands", 500, 2_500, Need(NeedKind.EVERY_NIGHT, up_to=self.high)),
            ("kitchen-tarp", 900, 3_000, Need(NeedKind.EVERY_NIGHT, up_to=self.high)),
            ("repair-kit", 500, 1_000, Need(NeedKind.EVERY_NIGHT)),
            ("battery", 450, 500, Need(NeedKind.EVERY_NIGHT)),
            ("tent-pegs", 450, 900, Need(NeedKind.EVERY_NIGHT)),
        )
        while len(items) < self.size.pieces:
            name, mass_g, volume_ml, need = more[len(items) % len(more)]
            add(name, self.chance.randint(mass_g // 2, mass_g), volume_ml, need)
        return items

    # Food and fuel

    def _night_sets(self, team: str) -> tuple[NightSet, NightSet]:
        food_g, fuel_ml = self.chance.randint(800, 950), self.chance.randint(150, 250)
        low = NightSet("low", team, food_g, 45, 220, 2_300, fuel_ml)
        high = NightSet("high", team, food_g - 60, 40, 200, 2_000, min(250, fuel_ml + 20))
        return low, high

    def _kitchen(self, team: str) -> CookGroup:
        high = self.camps.index(self.high)
        set_at = tuple((c, "low" if n <= high else "high") for n, c in enumerate(self.camps))
        return CookGroup(team, set_at, (Container("can", team, 950, 160, 1_100),))

    def _reserves(self) -> list[Reserve]:
        found = []
        for team in self.teams:
            found.append(Reserve("c0", team, ReserveKind.BASE_WAIT, 2, "low"))
            found.append(Reserve(self.high, team, ReserveKind.DESCENT, 1, "low"))
            for number, camp in enumerate(self.camps[1:], start=1):
                top = number == len(self.camps) - 1
                set_id = "low" if number <= self.camps.index(self.high) else "high"
                nights = 2 if top or camp == self.high else 1
                found.append(Reserve(camp, team, ReserveKind.STORM, nights, set_id))
        return found
