"""The exhaustive search with the rules of glaciers, for worlds whose people stay together.

Where everybody goes together each moment has one trip, so what stands after it is known with
the distribution that it leads to. Loss is judged with what stands at the places of the day, camps
and caches by what stands before and after each night.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from solver.problem import Direction, Night, Problem, Purpose, Trip
from tests.pipeline.exhaustive import Search, least_peak_of
from tests.pipeline.glacier_load import GlacierLoad, Worth, Worths
from tests.pipeline.least_load import NEVER, LeastLoad
from tests.pipeline.unit_stories import Kind

Asked = tuple[Worth, tuple[str, ...], int]
"""What must stand at some places in all, and how much of it."""


def least_glacier_peak(problem: Problem) -> int | None:
    """Least peak load of a world with the rules of glaciers [1/10,000], None without a plan."""
    return least_peak_of(GlacierSearch(problem))


class GlacierSearch(Search):
    """All distributions of all kinds that keep the rules of glaciers."""

    def __init__(self, problem: Problem) -> None:
        self.worths = Worths(problem)
        super().__init__(problem)
        assert all(len(day.visits) == 1 for day in problem.calendar.days)

    def loading(self, trip: Trip, kinds: list[Kind], counts: list[int]) -> LeastLoad:
        """How bundles of some kinds can be carried on a trip."""
        return GlacierLoad(self.problem, self.timeline, trip, kinds, counts)

    def _fractions(self, number: int, bundles: np.ndarray, after: np.ndarray) -> np.ndarray:
        least = self.least[number]
        assert isinstance(least, GlacierLoad)
        trip = self.timeline.trips[number]
        visit = self.problem.calendar.days[trip.day - 1].visits[0]
        reach = tuple(dict.fromkeys(visit.places))
        arrived = [night.day - 1 for night in self.timeline.nights if night.moment == trip.moment]
        columns = [bundles]
        short = ~least.far_enough_equipped[bundles]
        for loss in least.losses:
            room = self.standing(number + 1, after, loss.worth, reach, before=arrived)
            room = room - loss.needed
            short |= room < 0
            most = least.worth(loss.worth)[bundles]
            columns.append(np.clip(room, 0, most))
        rows, back = np.unique(np.stack(columns, axis=1), axis=0, return_inverse=True)
        answers = [least(int(row[0]), tuple(int(room) for room in row[1:])) for row in rows]
        fractions = np.array(answers, dtype=np.int64)[back.reshape(-1)]
        fractions[short] = NEVER
        return fractions

    def standing(
        self,
        number: int,
        keys: np.ndarray,
        worth: Worth,
        places: Iterable[str],
        *,
        before: Iterable[int],
    ) -> np.ndarray:
        """What stands at some places after some trips is worth, but before some nights (from 0)."""
        total = np.zeros(len(keys), dtype=np.int64)
        places, before = list(places), list(before)
        stride = 1
        for path in self.paths:
            spots = path.spots[number]
            each = worth(path.kind)
            if each:
                used = sum(
                    path.kind.nights[night].change.get(place, 0)
                    for night in before
                    for place in places
                )
                at = [path.places.index(place) for place in places]
                counts = np.array([sum(spot[i] for i in at) - used for spot in spots])
                total += each * counts[keys // stride % len(spots)]
            stride *= len(spots)
        return total

    def _hold(
        self, keys: np.ndarray, peaks: np.ndarray, number: int
    ) -> tuple[np.ndarray, np.ndarray]:
        keys, peaks = super()._hold(keys, peaks, number)
        moment = self.timeline.trips[number - 1].moment if number else 0
        nights = [night for night in self.timeline.nights if night.moment == moment]
        for index, night in enumerate(nights):
            later = [each.day - 1 for each in nights[index + 1 :]]
            own = [night.day - 1, *later]
            good = np.ones(len(keys), dtype=bool)
            for worth, places, needed in self._before_use(night):
                good &= self.standing(number, keys, worth, places, before=own) >= needed
            for worth, places, needed in self._after_use(night):
                good &= self.standing(number, keys, worth, places, before=later) >= needed
            for place in self._left_too_long(night):
                good &= self.standing(number, keys, _one, (place,), before=later) == 0
            keys, peaks = keys[good], peaks[good]
        return keys, peaks

    def _groups(self, night: Night) -> Iterator[tuple[str, str, int, int, bool]]:
        """Cook group, its place, its people, its fuel each that night, whether it has any."""
        for group in self.problem.cook_groups:
            members = self.problem.members(group.cook_group_id)
            if members:
                place = night.place_of(members[0].person_id)
                used = self.problem.night_set(group.cook_group_id, group.set_id_at(place))
                fuelled = bool(group.containers) and used.fuel_ml > 0
                yield group.cook_group_id, place, len(members), used.fuel_ml, fuelled

    def _before_use(self, night: Night) -> Iterator[Asked]:
        groups = list(self._groups(night))
        camp = groups[0][1]
        if self.problem.asks("kitchen_for_each_group"):
            for purpose in (Purpose.STOVE, Purpose.POT):
                if self.worths.is_listed(purpose):
                    yield self.worths.pieces(purpose), (camp,), len(groups)
        radio = Purpose.COMMUNICATOR
        if (
            self.problem.asks("communicator_at_camp")
            and self.worths.is_listed(radio)
            and not self.worths.worn(radio)
        ):
            yield self.worths.pieces(radio), (camp,), 1
        if self.problem.asks("fuel_in_two_containers"):
            previous = self.timeline.nights[night.day - 2] if night.day > 1 else None
            if previous is None or previous.sleeps_at != night.sleeps_at:
                for group_id, place, _, _, fuelled in groups:
                    if fuelled:
                        # The one opened last night is open; none is before the first night.
                        yield self._containers(group_id, night), (place,), 2

    def _containers(self, group_id: str, night: Night) -> Worth:
        fuel = self.worths.fuel(night.day - 2, group_id)
        return lambda kind: int(fuel(kind) > 0)

    def _after_use(self, night: Night) -> Iterator[Asked]:
        left = len(self.timeline.nights) - night.day
        for group_id, place, people, each_ml, fuelled in self._groups(night):
            food = self.worths.food(group_id)
            fuel = self.worths.fuel(night.day - 1, group_id)
            night_ml = people * each_ml
            if left and self.problem.asks("turn_round_stock_held") and not self._homeward(night):
                nights = self.problem.rules.whole("turn_round_nights")
                places = tuple(
                    dict.fromkeys((place, self.timeline.nights[night.day].sleeps_at[0][1]))
                )
                yield food, places, min(nights * people + 1, left * people)
                if fuelled:
                    yield fuel, places, min(nights * night_ml + 1, left * night_ml)
            if self.problem.asks("cache_loss_survived"):
                nights = min(self.problem.rules.whole("cache_loss_nights"), left)
                way = self.problem.route.way_home(place)
                for lost in way[1:]:
                    others = tuple(p for p in way if p != lost)
                    yield food, others, nights * people
                    yield fuel, others, nights * night_ml

    def _homeward(self, night: Night) -> bool:
        trips = [trip for trip in self.timeline.trips if trip.day == night.day + 1]
        return bool(trips) and trips[0].direction is Direction.HOMEWARD

    def _left_too_long(self, night: Night) -> Iterator[str]:
        if not self.problem.asks("cache_time_limited"):
            return
        days = self.problem.rules.whole("cache_days")
        visited = [set(day.visits[0].places) for day in self.problem.calendar.days]
        for place in self.problem.route.places:
            if place.place_id == self.problem.start_place:
                continue
            on = [d for d, places in enumerate(visited, start=1) if place.place_id in places]
            for index, day in enumerate(on):
                next_day = on[index + 1] if index + 1 < len(on) else None
                if next_day == day + 1:
                    continue
                too_long = next_day is None or next_day - day > days
                if too_long and day <= night.day < (next_day or len(visited)):
                    yield place.place_id


def _one(_: Kind) -> int:
    return 1
