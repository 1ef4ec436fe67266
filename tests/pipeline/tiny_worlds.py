"""Seeded tiny worlds, small enough to try every way of moving everything.

The draws put in what the rules speak of: sleds on the first leg, carries, relays, caches and
people who split up; food in bags of one or two sets, fuel in containers that are open over
night, reserves, sacks; items of every need, with and without a part of the route; kinds kept
apart. Masses come from a coarse grid (ties, perfect splits) or a fine one (none), and caps
are drawn round what the world weighs, so that about a third of the worlds have no plan.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from random import Random

from solver.problem import (
    Caps,
    Container,
    CookGroup,
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
    Waste,
)
from solver.problem.problem import RuleSettings
from tests.pipeline.tiny_calendars import SPLIT, TOGETHER


def tiny_world(seed: int) -> Problem:
    """The tiny world of a seed; the same seed gives the same world."""
    return _Draw(Random(seed)).world()


@dataclass
class _Draw:
    """One world in the making."""

    chance: Random

    def world(self) -> Problem:
        chance = self.chance
        self.shape = chance.choice(SPLIT if chance.random() < 0.25 else TOGETHER)
        self.coarse = chance.random() < 0.5
        self.teams = ("r1", "r2") if self.shape.splits or chance.random() < 0.2 else ("r1", "r1")
        apart = self.shape.splits_at_night or chance.random() < 0.2
        self.groups = ("g1", "g2") if apart else ("g1", "g1")
        groups, sets, reserves = self._supplies()
        problem = Problem(
            route=self._route(),
            calendar=self.shape.calendar(self.teams),
            roster=(),
            gear=tuple(self._gear()),
            cook_groups=groups,
            night_sets=sets,
            reserves=reserves,
            waste=self._waste(),
            fuel_density_g_per_l=chance.choice((700, 740, 803)),
            fuel_margin_percent=chance.choice((0, 0, 10)),
        )
        return self._with_people(problem)

    def _mass_g(self, most_g: int) -> int:
        if self.coarse:
            return 500 * self.chance.randint(1, max(1, most_g // 500))
        return self.chance.randint(200, most_g)

    def _route(self) -> Route:
        chance, letters = self.chance, self.shape.places
        with_sled = chance.random() < 0.45
        kinds = {"a": PlaceKind.ROAD_HEAD}
        for letter in self.shape.not_slept_at:
            kinds[letter] = PlaceKind.SUMMIT if letter == letters[-1] else PlaceKind.CACHE_SITE
        places = tuple(
            Place(letter, 1000 + 400 * rank, kinds.get(letter, PlaceKind.CAMP))
            for rank, letter in enumerate(letters)
        )
        legs = []
        for rank, (low, high) in enumerate(pairwise(letters)):
            sled_leg = with_sled and (
                rank == 0 or (legs[0].mode is LegMode.SLED and chance.random() < 0.5)
            )
            mode = LegMode.SLED if sled_leg else chance.choice((LegMode.PACK, LegMode.FIXED_ROPE))
            up, down = chance.choice((100, 80, 60)), chance.choice((100, 80))
            legs.append(Leg(f"{low}{high}", low, high, mode, up, down, ascent_m=400))
        self.modes = tuple(leg.mode for leg in legs)
        return Route(places, tuple(legs))

    # Food, fuel, waste

    def _slept_at(self, side: int) -> list[str]:
        days = [day.split("|")[side if "|" in day else 0] for day in self.shape.days.split()]
        return [day[-1] for day in days[:-1]]

    def _supplies(self) -> tuple[tuple[CookGroup, ...], tuple[NightSet, ...], tuple[Reserve, ...]]:
        groups, sets, reserves = [], [], []
        with_fuel = self.chance.random() < 0.6
        for side, group_id in enumerate(dict.fromkeys(self.groups)):
            places = list(dict.fromkeys(self._slept_at(side)))
            two_sets = len(places) > 1 and self.chance.random() < 0.3
            set_ids = ("low", "high") if two_sets else ("low", "low")
            people = self.groups.count(group_id)
            set_at = tuple((p, set_ids[min(rank, 1)]) for rank, p in enumerate(places))
            sets += [
                self._night_set(s, group_id, people, with_fuel) for s in dict.fromkeys(set_ids)
            ]
            containers = self._containers(group_id) if with_fuel else ()
            groups.append(CookGroup(group_id, set_at, containers))
            storm = self.chance.random() < 0.2
            if storm:
                sets.append(self._night_set("storm", group_id, people, with_fuel))
            for _ in range(self.chance.choice((0, 0, 0, 0, 0, 1, 1, 2))):
                kind = self.chance.choice(
                    (ReserveKind.STORM, ReserveKind.DESCENT, ReserveKind.BASE_WAIT)
                )
                place, set_id = self.chance.choice(set_at)
                if kind is ReserveKind.BASE_WAIT:
                    place = "a"
                nights = self.chance.choice((1, 1, 1, 2))
                reserves.append(
                    Reserve(place, group_id, kind, nights, "storm" if storm else set_id)
                )
        return tuple(groups), tuple(sets), tuple(reserves)

    def _night_set(self, set_id: str, group_id: str, people: int, with_fuel: bool) -> NightSet:
        chance = self.chance
        gross_g = 500 * chance.randint(1, 2) if self.coarse else chance.randint(600, 1100)
        return NightSet(
            set_id=set_id,
            cook_group_id=group_id,
            gross_g=gross_g,
            packaging_g=chance.choice((0, 0, 50, 90)),
            lunch_g=chance.choice((0, 100, 250)),
            volume_ml=chance.randint(500, 2500),
            fuel_ml=chance.choice((80, 130, 200)) if with_fuel else 0,
            sets_per_bag=people if chance.random() < 0.7 else 1,
        )

    def _containers(self, group_id: str) -> tuple[Container, ...]:
        chance = self.chance
        big = Container("can", group_id, chance.choice((260, 400, 650)), 150, 900)
        if chance.random() < 0.15:
            small = Container("tin", group_id, 200, 90, 400)
            return (replace(big, count=1), small)
        return (big,)

    def _waste(self) -> Waste:
        if self.chance.random() < 0.6:
            return Waste()
        return Waste(
            waste_g_per_person_night=self.chance.choice((0, 120, 150)),
            trash_sack_g=self.chance.choice((100, 4000)),
            human_waste_sack_g=self.chance.choice((250, 4000)),
        )

    # Gear

    def _gear(self) -> list[Item]:
        chance = self.chance
        items = [self._item(f"i{n}", None) for n in range(chance.choice((1, 2, 2, 3, 3, 4, 4, 5)))]
        if chance.random() < 0.5:
            of_a_kind = min(len(items), chance.choice((2, 2, 3, 4)))
            for at in chance.sample(range(len(items)), of_a_kind):
                items[at] = replace(items[at], apart_kind="shelter")
        owners = [person_id for person_id in ("p1", "p2") if chance.random() < 0.5]
        return items + [self._item("own", person_id) for person_id in owners]

    def _item(self, item_id: str, owner_id: str | None) -> Item:
        chance = self.chance
        team = None
        if owner_id is None and (self.shape.splits or chance.random() < 0.15):
            team = chance.choice(self.teams)
        return Item(
            item_id=item_id,
            mass_g=self._mass_g(3000),
            volume_ml=chance.randint(500, 6000),
            need=self._need(owner_id, team),
            count=2 if chance.random() < 0.12 and owner_id is None else 1,
            owner_id=owner_id,
            rope_team_id=team,
            in_use_on=chance.choice(((), (), (LegMode.FIXED_ROPE,), (LegMode.PACK, LegMode.SLED))),
            outside=chance.random() < 0.2,
        )

    def _need(self, owner_id: str | None, team: str | None) -> Need:
        chance = self.chance
        theirs = {"p1": (0,), "p2": (1,)}.get(owner_id or "")
        if theirs is None:
            theirs = tuple(side for side in (0, 1) if team in (None, self.teams[side]))
        reached = set()
        for day in self.shape.days.split():
            for side in theirs:
                reached |= set(day.split("|")[side if "|" in day else 0])
        outward = sorted(reached - {"a"})
        slept = {place for side in theirs for place in self._slept_at(side)}
        # Where they only turn round, nothing is ever said to be needed in place.
        stops = [p for p in outward if p in slept or p < outward[-1]]
        kind = chance.choice(
            (NeedKind.EVERY_NIGHT,) * 4
            + (NeedKind.EVERY_TRIP,) * 3
            + (NeedKind.AT_PLACE,) * 3
            + (NeedKind.WORN,)
        )
        ahead = chance.random() < 0.5
        if kind is NeedKind.AT_PLACE and stops:
            mark = chance.choice(stops)
            return Need(kind, up_to=mark, may_go_ahead=ahead, may_follow=ahead)
        if kind in (NeedKind.WORN, NeedKind.AT_PLACE) or chance.random() < 0.5:
            return Need(NeedKind.EVERY_NIGHT if kind is NeedKind.AT_PLACE else kind)
        first = chance.choice((None, *outward))
        last = chance.choice((None, *(p for p in outward if first is None or p >= first)))
        return Need(kind, from_place=first, up_to=last, may_go_ahead=ahead and first is not None)

    # People, whose caps go by what there is to carry

    def _with_people(self, problem: Problem) -> Problem:
        chance = self.chance
        gear_g = sum(i.mass_g * i.count for i in problem.gear if i.need.kind is not NeedKind.WORN)
        nights = len(self.shape.days.split()) - 1
        food_g = sum(2 * nights * s.gross_g for s in problem.night_sets) // len(problem.night_sets)
        fuel_g = 700 * len(problem.cook_groups) if problem.cook_groups[0].containers else 0
        ease = chance.uniform(0.65, 1.8)
        share_g = int((gear_g + food_g + fuel_g) / 2 * ease) + 300
        sled_mode = self.modes[0] is LegMode.SLED
        roster, sleds = [], []
        for side, person_id in enumerate(("p1", "p2")):
            pack_g = int(share_g * chance.choice((0.7, 1.0, 1.0, 1.2)))
            hauls = sled_mode and chance.random() < 0.75
            pack_g = int(pack_g * 0.7) if hauls else pack_g
            # An empty sled of 400 g must be allowed to go where only 60 % of its limits hold.
            sled_g = max(1000, int(share_g * chance.choice((0.5, 0.8, 1.1))))
            by_leg = ()
            if chance.random() < 0.2:
                mode, way = chance.choice(self.modes), chance.choice(tuple(Direction))
                by_leg = ((mode, way, self._round_g(pack_g * chance.choice((0.8, 1.2)))),)
            roomy_ml = 60_000 if chance.random() < 0.75 else chance.randint(6_000, 16_000)
            total = chance.random() < 0.3 and hauls
            caps = Caps(
                pack_g=self._round_g(pack_g),
                sled_g=self._round_g(sled_g) if hauls else 0,
                total_g=self._round_g((pack_g + sled_g) * 0.85) if total else None,
                pack_by_leg=by_leg,
            )
            roster.append(
                Person(
                    person_id=person_id,
                    caps=caps,
                    pack_volume_ml=roomy_ml,
                    rope_team_id=self.teams[side],
                    cook_group_id=self.groups[side],
                    water_g=chance.choice((0, 0, 500, 750)),
                    first_lunch_g=chance.choice((0, 150)),
                )
            )
            if hauls:
                limit_g = self._round_g(sled_g * chance.choice((0.8, 1.5)))
                sleds.append(
                    Sled(f"s{side + 1}", person_id, 400, limit_g, chance.choice((9_000, 90_000)))
                )
        off = frozenset({"kinds_kept_apart"}) if chance.random() < 0.03 else frozenset()
        if chance.random() < 0.03:
            off |= {"fuel_spread"}
        rules = RuleSettings(chance.choice((0, 10)), off)
        return replace(problem, roster=tuple(roster), sleds=tuple(sleds), rules=rules)

    def _round_g(self, mass_g: float) -> int:
        """A cap on a grid that hauling factors divide without rest."""
        return max(50, int(mass_g) // 50 * 50)
