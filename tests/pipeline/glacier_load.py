"""The least load of a trip on a glacier: what may be lost, kept apart, or must ride is in it.

Only the exhaustive search uses this. Everything is read from the problem anew.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from solver.problem import Direction, NeedKind, Person, Problem, Purpose, Sled, Timeline, Trip
from solver.quantities import share_down
from tests.pipeline.least_load import NEVER, Codes, LeastLoad
from tests.pipeline.unit_stories import Kind

KEPT_APART = (
    ("pumps_kept_apart", Purpose.PUMP),
    ("shelters_kept_apart", Purpose.SHELTER),
    ("communicators_kept_apart", Purpose.COMMUNICATOR),
    ("rescue_kit_in_two_packs", Purpose.RESCUE_KIT),
)

Worth = Callable[[Kind], int]
"""What one unit of a kind counts."""


@dataclass(frozen=True)
class Loss:
    """What must be left of something when any one pack or sled is gone."""

    worth: Worth
    needed: int


class Worths:
    """What units count, by what they are good for."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.items = {i.unit_id: i for i in problem.gear if i.need.kind is not NeedKind.WORN}
        self.sets = {s.unit_id: s for s in problem.night_sets}

    def is_listed(self, purpose: Purpose) -> bool:
        """Whether anything of a purpose is on the trip."""
        return any(item.purpose is purpose for item in self.problem.gear)

    def worn(self, purpose: Purpose) -> bool:
        """Whether anybody wears something of a purpose; everybody is always together."""
        return any(i.purpose is purpose and i.need.kind is NeedKind.WORN for i in self.problem.gear)

    def pieces(self, purpose: Purpose) -> Worth:
        """One for each unit of a purpose."""
        return lambda kind: int(
            kind.name in self.items and self.items[kind.name].purpose is purpose
        )

    def places(self) -> Worth:
        """The people whom a shelter covers."""
        pieces = self.pieces(Purpose.SHELTER)
        return lambda kind: self.items[kind.name].shelter_places if pieces(kind) else 0

    def food(self, group_id: str) -> Worth:
        """The night sets of a cook group in a bag."""
        return lambda kind: (
            self.sets[kind.name].sets_per_bag
            if kind.name in self.sets and self.sets[kind.name].cook_group_id == group_id
            else 0
        )

    def fuel(self, night: int, group_id: str | None = None) -> Worth:
        """The fuel in a container after a night, counted from 0; -1 is before the first [mL]."""

        def worth(kind: Kind) -> int:
            if kind.fuel_of is None or group_id not in (None, kind.fuel_of):
                return 0
            if kind.content_ml:
                return kind.content_ml
            return kind.left_ml[night] if 0 <= night < len(kind.left_ml) else 0

        return worth


class GlacierLoad(LeastLoad):
    """Least load fractions of one trip where the rules of glaciers are asked."""

    def __init__(
        self, problem: Problem, timeline: Timeline, trip: Trip, kinds: list[Kind], most: list[int]
    ) -> None:
        super().__init__(problem, timeline, trip, kinds, most)
        self.worths = Worths(problem)
        for rule_id, purpose in KEPT_APART:
            if problem.asks(rule_id):
                self.spread.append(("apart", self.worth(self.worths.pieces(purpose))))
        if problem.asks("stoves_kept_apart"):
            self.spread.append(("single", self.worth(self.worths.pieces(Purpose.STOVE))))
        self.losses = self._losses()
        self.spread += [("loss", self.worth(loss.worth)) for loss in self.losses]
        self.far_enough_equipped = self._far()

    def worth(self, worth: Worth) -> Codes:
        """What each bundle is worth."""
        total = np.zeros(self.size, dtype=np.int64)
        for count, kind in zip(self.counts, self.kinds, strict=True):
            total += count * worth(kind)
        return total

    def _losses(self) -> list[Loss]:
        problem, worths = self.problem, self.worths
        people = len(problem.roster)
        nights_left = len(self.timeline.nights) + 1 - self.trip.day
        losses: list[Loss] = []
        if problem.asks("stove_survives_loss") and worths.is_listed(Purpose.STOVE) and nights_left:
            losses.append(Loss(worths.pieces(Purpose.STOVE), 1))
        if problem.asks("shelter_survives_loss") and worths.is_listed(Purpose.SHELTER):
            losses.append(Loss(worths.places(), people))
        radio = Purpose.COMMUNICATOR
        if (
            problem.asks("communicator_survives_loss")
            and worths.is_listed(radio)
            and not worths.worn(radio)
        ):
            losses.append(Loss(worths.pieces(radio), 1))
        if nights_left:
            night = self.timeline.nights[self.trip.day - 1]
            groups = [
                (g, problem.members(g.cook_group_id))
                for g in problem.cook_groups
                if problem.members(g.cook_group_id)
            ]
            hours = problem.rules.whole("loss_fuel_hours")
            burnt_ml = sum(
                len(members)
                * problem.night_set(
                    g.cook_group_id, g.set_id_at(night.place_of(members[0].person_id))
                ).fuel_ml
                for g, members in groups
            )
            needed_ml = burnt_ml * min(-(-hours // 24), nights_left)
            if problem.asks("fuel_survives_loss") and needed_ml:
                losses.append(Loss(worths.fuel(self.trip.day - 2), needed_ml))
            nights = min(-(-problem.rules.whole("loss_food_hours") // 24), nights_left)
            if problem.asks("food_survives_loss"):
                losses += [
                    Loss(worths.food(g.cook_group_id), nights * len(members))
                    for g, members in groups
                ]
        return losses

    def _far(self) -> Codes:
        """For each bundle whether it has what a party far from camp needs."""
        good = np.ones(self.size, dtype=bool)
        hours = self._away_hours()
        problem = self.problem
        if not problem.asks("stove_when_far"):
            return good
        if hours is None or hours <= problem.rules.number("away_hours"):
            return good
        for purpose in (Purpose.STOVE, Purpose.POT):
            if self.worths.is_listed(purpose):
                good &= self.worth(self.worths.pieces(purpose)) >= 1
        needed_ml = problem.rules.whole("away_fuel_ml") * len(self.trip.person_ids)
        return good & (self.worth(self.worths.fuel(self.trip.day - 2)) >= needed_ml)

    def _away_hours(self) -> float | None:
        """Hours of the further end of the trip from the nearer end of the party's day."""
        day = self.problem.calendar.days[self.trip.day - 1]
        places = day.visit_of(self.people[0].rope_team_id).places
        away = []
        for end in (self.trip.from_place, self.trip.to_place):
            both = [self._hours(base, end) for base in (places[0], places[-1])]
            if None in both:
                return None
            away.append(min(h for h in both if h is not None))
        return max(away)

    def _hours(self, here: str, there: str) -> float | None:
        way, total = self.problem.route.path(here, there), 0.0
        for one, other in pairwise(way):
            leg = self.problem.route.leg_between(one, other)
            hours = leg.hours_outbound if leg.from_place == one else leg.hours_homeward
            if hours is None:
                return None
            total += hours
        return total

    # Who carries how much

    def _may_carry(self, kind: Kind, person: Person) -> bool:
        if not super()._may_carry(kind, person):
            return False
        bag = self.worths.sets.get(kind.name)
        if not self.problem.asks("severe_allergens_apart"):
            return True
        if bag is None:
            mates = self.problem.members(person.cook_group_id)
            return kind.contains.isdisjoint(a for mate in mates for a in mate.reacts_to)
        for reacting in self.problem.roster:
            for allergen in reacting.reacts_to:
                clean = {p.cook_group_id for p in self.problem.roster if allergen in p.reacts_to}
                if person.cook_group_id in clean and allergen in bag.contains:
                    return False
                if bag.cook_group_id in clean and person.cook_group_id not in clean:
                    return False
        return True

    def _first_most_g(self, cap_g: int) -> int | None:
        """The share of a cap that may be used on the way out from the start [g]."""
        first = (
            self.trip.from_place == self.problem.start_place
            and self.trip.direction is Direction.OUTBOUND
            and self.problem.asks("first_load_within_plan")
        )
        percent = self.problem.rules.whole("first_load_percent")
        return share_down(amount=cap_g, percent=percent) if first else None

    def _pack_table(self, person: Person) -> Codes:
        table = super()._pack_table(person)
        most_g = self._first_most_g(person.caps.pack_on(self.trip.leg.mode, self.trip.direction))
        if most_g is not None:
            table[self.mass_g + self._dead_g(person) > most_g] = NEVER
        return table

    def _sled_table(self, person: Person, sled: Sled) -> Codes:
        table = super()._sled_table(person, sled)
        cap_g = share_down(amount=person.caps.sled_g, percent=self.trip.sled_factor_percent)
        most_g = self._first_most_g(cap_g)
        if most_g is not None:
            table[self.mass_g + sled.tare_g > most_g] = NEVER
        return table

    def _split(self, person: Person, sled: Sled, pack: Codes, on_sled: Codes) -> Codes:
        table = super()._split(person, sled, pack, on_sled)
        total_g = person.caps.total_g
        most_g = None if total_g is None else self._first_most_g(total_g)
        if most_g is not None:
            table[self.mass_g + self._dead_g(person) + sled.tare_g > most_g] = NEVER
        return table
