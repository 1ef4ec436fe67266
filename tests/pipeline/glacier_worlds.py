"""Seeded tiny worlds on glaciers: two people together, with gear of which some must be left.

A second family beside the tiny worlds, with draws of its own: stoves, pots, shelters and
communicators of one or two units, hours and hazards of legs, spare food and fuel, limits and
allergens of people, own things of theirs that may go to the rope team or not, and a handful of the
rules of glaciers asked at a time, at numbers that bind on trips of a few days.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

import numpy as np

from solver.problem import Hazard, Item, Need, NeedKind, Person, Problem, Purpose, read_timeline
from solver.problem.problem import RuleSettings
from solver.rulebook import RULES
from tests.pipeline.exhaustive import Search
from tests.pipeline.tiny_calendars import TOGETHER
from tests.pipeline.tiny_worlds import _Draw
from tests.pipeline.unit_stories import Stories

PLAN_RULES = (
    "first_load_within_plan",
    "stove_survives_loss",
    "shelter_survives_loss",
    "communicator_survives_loss",
    "fuel_survives_loss",
    "food_survives_loss",
    "stoves_kept_apart",
    "pumps_kept_apart",
    "shelters_kept_apart",
    "communicators_kept_apart",
    "rescue_kit_in_two_packs",
    "stove_when_far",
    "kitchen_for_each_group",
    "communicator_at_camp",
    "fuel_in_two_containers",
    "turn_round_stock_held",
    "cache_loss_survived",
    "cache_time_limited",
)
"""Rules of glaciers that look at plans; each world asks some of them."""

PURPOSES = (
    Purpose.STOVE,
    Purpose.STOVE,
    Purpose.POT,
    Purpose.PUMP,
    Purpose.SHELTER,
    Purpose.SHELTER,
    Purpose.COMMUNICATOR,
    Purpose.COMMUNICATOR,
    Purpose.RESCUE_KIT,
)


MOST_WAYS = 60_000
"""Worlds with more ways to load a trip are drawn again, for trying them all takes minutes."""


def glacier_world(seed: int) -> Problem:
    """The glacier world of a seed; the same seed gives the same world."""
    draw = _GlacierDraw(Random(f"glacier {seed}"))
    problem = draw.world()
    while _ways(problem) > MOST_WAYS:
        problem = draw.world()
    return _with_own_kit(problem, Random(f"own kit {seed}"))


OWN_PURPOSES = (
    None,
    Purpose.SLEEPING_BAG,
    Purpose.HEADLAMP,
    Purpose.WARM_JACKET,
    Purpose.SHELL_CLOTHING,
    Purpose.COLD_CLOTHING,
)


def _with_own_kit(problem: Problem, chance: Random) -> Problem:
    """The problem with nights so cold, and things that keep one alive or may go to the team."""
    owned = tuple(_owned(item, chance) for item in problem.gear)
    gear = tuple(_of_team(item, problem, chance) for item in owned)
    places = tuple(
        replace(place, night_temperature_c=chance.choice((None, 2.0, 2.0, -5.0, -15.0)))
        for place in problem.route.places
    )
    roster = tuple(
        replace(p, kit_to_rope_team=p.kit_to_rope_team or chance.random() < 0.5)
        for p in problem.roster
    )
    route = replace(problem.route, places=places)
    return replace(problem, gear=gear, route=route, roster=roster)


def _owned(item: Item, chance: Random) -> Item:
    """A thing as it is, or somebody's own with a purpose."""
    purpose = chance.choice(OWN_PURPOSES)
    below_c = chance.choice((None, -10.0)) if purpose is Purpose.COLD_CLOTHING else None
    shared = item.owner_id is None
    if shared and item.purpose is None and chance.random() < 0.3:
        return replace(item, purpose=Purpose.FUEL, count=2)
    if item.need.kind is NeedKind.WORN or (shared and (item.purpose or chance.random() >= 0.7)):
        return item
    if shared:
        item = replace(item, owner_id="p1", rope_team_id=None, apart_kind=None, count=1)
    return replace(item, purpose=purpose, needed_below_c=below_c)


def _of_team(item: Item, problem: Problem, chance: Random) -> Item:
    """A shared thing as it is, or as kit of one rope team."""
    team = chance.choice(problem.roster).rope_team_id
    kit = item.purpose is Purpose.RESCUE_KIT or (item.purpose is Purpose.FUEL)
    if not kit or item.apart_kind is not None or chance.random() < 0.5:
        return item
    purpose = Purpose.ROPE if item.purpose is Purpose.FUEL else item.purpose
    return replace(item, purpose=purpose, rope_team_id=team)


@dataclass
class _GlacierDraw(_Draw):
    """One world in the making, drawn like a tiny world but for what is added here."""

    def world(self) -> Problem:
        chance = self.chance
        # Two people who never part: shapes that split are drawn until one does not.
        problem = super().world()
        while self.shape not in TOGETHER:
            problem = super().world()
        problem = replace(
            problem,
            route=replace(
                problem.route,
                legs=tuple(
                    replace(
                        leg,
                        crevasse_hazard=Hazard.LOW,
                        hours_outbound=chance.choice((1.0, 2.5, 4.0, None)),
                        hours_homeward=chance.choice((1.0, 2.0)),
                    )
                    for leg in problem.route.legs
                ),
            ),
            rules=self._rules(problem),
        )
        problem = self._with_allergens(self._with_limits(problem))
        return self._with_spares(problem)

    def _rules(self, problem: Problem) -> RuleSettings:
        chance = self.chance
        asked = {rule_id for rule_id in PLAN_RULES if chance.random() < 0.25}
        off = {rule.rule_id for rule in RULES if rule.on_glaciers} - asked
        numbers = (
            ("loss_fuel_hours", chance.choice((24, 48, 72))),
            ("loss_food_hours", chance.choice((24, 24, 48))),
            ("away_hours", chance.choice((2.0, 3.0))),
            ("away_fuel_ml", chance.choice((0, 60, 100))),
            ("turn_round_nights", chance.choice((0, 1, 2))),
            ("cache_loss_nights", chance.choice((1, 1, 2))),
            ("cache_days", chance.choice((1, 2))),
            ("first_load_percent", chance.choice((80, 90, 95))),
        )
        return replace(
            problem.rules, switched_off=problem.rules.switched_off | off, numbers=numbers
        )

    def _gear(self) -> list[Item]:
        chance = self.chance
        items = [self._item("i0", None)] if chance.random() < 0.6 else []
        for number, purpose in enumerate(chance.sample(PURPOSES, chance.choice((1, 2, 2)))):
            items.append(
                replace(
                    self._item(f"k{number}", None),
                    mass_g=self._mass_g(1200),
                    need=self._kit_need(),
                    count=chance.choice((1, 2, 2, 3)),
                    rope_team_id=None,
                    purpose=purpose,
                    shelter_places=chance.choice((1, 2)) if purpose is Purpose.SHELTER else 0,
                )
            )
        if chance.random() < 0.25:
            worn = Need(NeedKind.WORN)
            items.append(replace(self._item("beacon", "p2"), need=worn, in_use_on=(), count=1))
            items[-1] = replace(items[-1], purpose=Purpose.COMMUNICATOR)
        if chance.random() < 0.3:
            items.append(self._item("own", "p1"))
        return items

    def _kit_need(self) -> Need:
        """Kit that is needed each night, or only from a place on, so that it may go about."""
        chance = self.chance
        far = max(self.shape.places)
        return chance.choice(
            (
                Need(NeedKind.EVERY_NIGHT),
                Need(NeedKind.EVERY_NIGHT),
                Need(NeedKind.EVERY_NIGHT, from_place=far, may_go_ahead=True),
                Need(NeedKind.EVERY_TRIP, from_place=far, may_go_ahead=True),
            )
        )

    def _with_limits(self, problem: Problem) -> Problem:
        chance = self.chance
        roster: list[Person] = []
        for person in problem.roster:
            water_g = chance.choice((None, None, 0, 900))
            limit_g = person.caps.pack_g * chance.choice((6, 8, 10)) // 10
            if chance.random() < 0.8:
                limit_g = None
            roster.append(
                replace(
                    person,
                    summit_water_g=water_g,
                    load_limit_g=limit_g,
                    kit_to_rope_team=chance.random() < 0.5,
                )
            )
        return replace(problem, roster=tuple(roster))

    def _with_allergens(self, problem: Problem) -> Problem:
        chance = self.chance
        if len(problem.cook_groups) < 2 or chance.random() < 0.5:
            return problem
        one = replace(problem.roster[0], reacts_to=("nuts",))
        sets = tuple(
            replace(s, contains=("nuts",))
            if s.cook_group_id == "g2" and chance.random() < 0.7
            else s
            for s in problem.night_sets
        )
        return replace(problem, roster=(one, *problem.roster[1:]), night_sets=sets)

    def _with_spares(self, problem: Problem) -> Problem:
        """The problem with as many bags and containers as it needs at least, and a few more.

        Where a cook group has two kinds of containers it has none to spare: one that serves no
        need could ride along so that the others need not part, which the model does not try.
        """
        stories = Stories(problem, read_timeline(problem))

        def count(unit_id: str, *, spare: bool = True) -> int:
            more = self.chance.choice((0, 0, 1)) if spare else 0
            return stories.kinds[unit_id].start_count + more

        return replace(
            problem,
            night_sets=tuple(replace(s, bag_count=count(s.unit_id)) for s in problem.night_sets),
            cook_groups=tuple(
                replace(
                    group,
                    containers=tuple(
                        replace(c, count=count(c.unit_id, spare=len(group.containers) == 1))
                        for c in group.containers
                    ),
                )
                for group in problem.cook_groups
            ),
        )


def _ways(problem: Problem) -> float:
    """In how many ways the units of a world can ride the trip with most of them, at most."""
    search = Search(problem)
    return max(
        float(np.prod([max(1, len(path.moves[number])) for path in search.paths]))
        for number in range(len(search.timeline.trips))
    )
