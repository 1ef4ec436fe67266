"""The least peak load of a tiny world by exhaustive search over everything that could be moved.

Every unit may ride any trip that leaves the place where it stands, in any direction and as
often as it likes; only what the ledger forbids is left out. The search goes through the trips
in order and keeps, for every distribution of all units over the places, the least peak with
which it can be reached. Two things are left out early, and both are safe: positions from which
a kind of unit could not meet its own needs any more, and loads above a peak that some plan is
known to stay within.
"""

from __future__ import annotations

import numpy as np

from solver.problem import Problem, Trip, read_timeline
from tests.pipeline.least_load import NEVER, LeastLoad, least_possible
from tests.pipeline.unit_stories import Kind, NightStep, Stories

Spot = tuple[int, ...]
"""How many units of a kind stand at each place, and behind that on each trip of the moment."""

WHOLE = 10_000
TRIED_PEAKS = (3_000, 4_500, 6_000, 7_500, 9_000, WHOLE)
"""Peaks that the search tries to stay within, in turn; a plan found is the best of all."""


def least_peak(problem: Problem) -> int | None:
    """Least peak load that any plan of the problem has [1/10,000], None where there is none."""
    return least_peak_of(Search(problem))


def least_peak_of(search: Search) -> int | None:
    """The same of a search that is set up."""
    if search.stories.impossible:
        return None
    for within in TRIED_PEAKS:
        found = search.run(within)
        if found is not None:
            return found
    return None


class Paths:
    """Where the units of one kind can be after each trip without failing their own needs.

    `spots[k]` are the distributions that can stand after k trips, `moves[k]` the ways from
    those before trip k to those after it, each with the number of units that ride.
    """

    def __init__(self, kind: Kind, problem: Problem, search: Search) -> None:
        self.kind = kind
        self.places = [place.place_id for place in problem.route.places]
        self.search = search
        start = [0] * len(self.places)
        start[self.places.index(problem.start_place)] = kind.start_count
        first = self._settle(tuple(start), 0)
        layers: list[set[Spot]] = [{first} if first is not None else set()]
        moves: list[list[tuple[Spot, int, Spot]]] = []
        for trip in search.timeline.trips:
            steps = [step for spot in sorted(layers[-1]) for step in self._ride(spot, trip)]
            moves.append(steps)
            layers.append({after for _, _, after in steps})
        home = self.places.index(problem.start_place)
        alive = {spot for spot in layers[-1] if sum(spot) == spot[home]}
        self.moves: list[list[tuple[Spot, int, Spot]]] = []
        self.spots: list[list[Spot]] = [sorted(alive)]
        for steps in reversed(moves):
            kept = [step for step in steps if step[2] in alive]
            alive = {before for before, _, _ in kept}
            self.moves.insert(0, kept)
            self.spots.insert(0, sorted(alive))

    def _ride(self, spot: Spot, trip: Trip) -> list[tuple[Spot, int, Spot]]:
        """All ways in which units may ride a trip, and where that leaves the kind."""
        origin = self.places.index(trip.from_place)
        present = spot[origin]
        riding = range(present + 1)
        if self.kind.owner_id is not None and self.kind.owner_id not in trip.person_ids:
            riding = range(1)
        if trip.index in self.kind.too_far:
            riding = range(1)
        if trip.index in self.kind.must_ride:
            total = sum(spot)
            riding = range(total, total + 1) if present == total else range(0)
        found = []
        for count in riding:
            after = (*spot[:origin], present - count, *spot[origin + 1 :], count)
            if self.search.ends_moment(trip):
                arrived = list(after[: len(self.places)])
                for other, moved in zip(
                    self.search.trips_of(trip.moment), after[len(self.places) :], strict=True
                ):
                    arrived[self.places.index(other.to_place)] += moved
                settled = self._settle(tuple(arrived), trip.moment)
                if settled is None:
                    continue
                after = settled
            found.append((spot, count, after))
        return found

    def _settle(self, spot: Spot, moment: int) -> Spot | None:
        """The distribution after the nights that follow a moment; None where one is not met."""
        place = self.kind.stands_at.get(moment)
        if place is not None and spot[self.places.index(place)] != sum(spot):
            return None
        for night, step in zip(self.search.timeline.nights, self.kind.nights, strict=True):
            if night.moment == moment:
                after = self._pass_night(spot, step)
                if after is None:
                    return None
                spot = after
        return spot

    def _pass_night(self, spot: Spot, step: NightStep) -> Spot | None:
        stock = dict(zip(self.places, spot, strict=True))
        if step.all_at is not None and stock[step.all_at] != sum(spot):
            return None
        if any(stock[place] < count for place, count in step.needed.items()):
            return None
        after = {place: count + step.change.get(place, 0) for place, count in stock.items()}
        if min(after.values()) < 0:
            return None
        if any(after[place] < count for place, count in step.kept.items()):
            return None
        return tuple(after.values())


class Search:
    """All distributions of all kinds, trip by trip."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.timeline = read_timeline(problem)
        self.stories = Stories(problem, self.timeline)
        self.paths = [Paths(kind, problem, self) for kind in self.stories.kinds.values()]
        # The heaviest come first, so that a load too great is seen early.
        self.paths.sort(key=lambda path: -max(g for g, _ in path.kind.load_on))
        self.least: list[LeastLoad] = []
        self.riders: list[list[int]] = []
        for number, trip in enumerate(self.timeline.trips):
            most = [max((r for _, r, _ in p.moves[number]), default=0) for p in self.paths]
            riders = [index for index, count in enumerate(most) if count > 0]
            kinds = [self.paths[index].kind for index in riders]
            counts = [most[index] for index in riders]
            self.riders.append(riders)
            self.least.append(self.loading(trip, kinds, counts))

    def loading(self, trip: Trip, kinds: list[Kind], counts: list[int]) -> LeastLoad:
        """How bundles of some kinds can be carried on a trip."""
        return LeastLoad(self.problem, self.timeline, trip, kinds, counts)

    def trips_of(self, moment: int) -> list[Trip]:
        """The trips that leave together at a moment."""
        return [trip for trip in self.timeline.trips if trip.moment == moment]

    def ends_moment(self, trip: Trip) -> bool:
        """Whether a trip is the last listed of its moment, so that all of them arrive."""
        return self.trips_of(trip.moment)[-1].index == trip.index

    def run(self, within: int) -> int | None:
        """Least peak of all plans that stay within a peak, None where there is none."""
        if any(not path.spots[0] for path in self.paths):
            return None
        keys = np.zeros(1, dtype=np.int64)
        peaks = np.zeros(1, dtype=np.int64)
        keys, peaks = self._hold(keys, peaks, 0)
        for number in range(len(self.timeline.trips)):
            keys, peaks = self._travel(number, keys, peaks, within)
            keys, peaks = self._hold(keys, peaks, number + 1)
            if not len(keys):
                return None
        return int(peaks.min())

    def _travel(
        self, number: int, keys: np.ndarray, peaks: np.ndarray, within: int
    ) -> tuple[np.ndarray, np.ndarray]:
        """Every way in which one trip can be loaded, from every distribution before it."""
        least = self.least[number]
        bundles = np.zeros(len(keys), dtype=np.int64)
        after = np.zeros(len(keys), dtype=np.int64)
        stride_before = stride_after = 1
        for index, path in enumerate(self.paths):
            before = {spot: code for code, spot in enumerate(path.spots[number])}
            behind = {spot: code for code, spot in enumerate(path.spots[number + 1])}
            rows = sorted((before[a], r, behind[b]) for a, r, b in path.moves[number])
            if len(rows) > 1 or len(before) > 1:
                starts, ride, to = (np.array(column) for column in zip(*rows, strict=True))
                many = np.bincount(starts, minlength=len(before))
                first = np.concatenate(([0], np.cumsum(many)[:-1]))
                code = keys // stride_before % len(before)
                copies = many[code]
                source = np.repeat(np.arange(len(keys)), copies)
                within_copy = np.arange(len(source)) - np.repeat(np.cumsum(copies) - copies, copies)
                row = first[code[source]] + within_copy
                keys, peaks, bundles = keys[source], peaks[source], bundles[source]
                after = after[source] + to[row] * stride_after
                rides = ride[row]
            else:
                rides = np.full(len(keys), rows[0][1])
            if index in self.riders[number]:
                bundles = bundles + rides * least.strides[self.riders[number].index(index)]
                fits = least_possible(least.mass_g[bundles], least) <= within
                keys, peaks, bundles = keys[fits], peaks[fits], bundles[fits]
                after = after[fits]
            stride_before *= len(before)
            stride_after *= len(behind)
        if not self.riders[number] or len(keys):
            peaks = self.counted(peaks, self._fractions(number, bundles, after), within)
        fits = peaks < NEVER
        order = np.argsort(peaks[fits], kind="stable")
        found, at = np.unique(after[fits][order], return_index=True)
        return found, peaks[fits][order][at]

    def counted(self, so_far: np.ndarray, fractions: np.ndarray, within: int) -> np.ndarray:
        """What plans come to with one trip more, NEVER where it is above a peak."""
        return np.where(fractions > within, NEVER, np.maximum(so_far, fractions))

    def _fractions(self, number: int, bundles: np.ndarray, after: np.ndarray) -> np.ndarray:
        """Least fractions with which bundles are carried that lead to distributions `after`."""
        asked, back = np.unique(bundles, return_inverse=True)
        answers = [self.least[number](int(bundle)) for bundle in asked]
        return np.array(answers, dtype=np.int64)[back]

    def _hold(
        self, keys: np.ndarray, peaks: np.ndarray, number: int
    ) -> tuple[np.ndarray, np.ndarray]:
        """Only the distributions that keep what rules ask of all kinds together."""
        return self._hold_fuel(keys, peaks, number)

    def _hold_fuel(
        self, keys: np.ndarray, peaks: np.ndarray, number: int
    ) -> tuple[np.ndarray, np.ndarray]:
        """Only the distributions whose unopened containers cover the fuel reserves."""
        trips = self.timeline.trips
        moment = trips[number - 1].moment if number else 0
        if number and not self.ends_moment(trips[number - 1]):
            return keys, peaks
        for kept in self.stories.fuel_kept:
            if self.timeline.nights[kept.night].moment != moment:
                continue
            held_ml = np.zeros(len(keys), dtype=np.int64)
            stride = 1
            for path in self.paths:
                spots = path.spots[number]
                if path.kind.fuel_of == kept.cook_group_id and path.kind.content_ml:
                    at = path.places.index(kept.place_id)
                    # A later night of the same moment has taken some that still stood then.
                    later = sum(
                        -step.change.get(kept.place_id, 0)
                        for night, step in zip(
                            self.timeline.nights[kept.night + 1 :],
                            path.kind.nights[kept.night + 1 :],
                            strict=True,
                        )
                        if night.moment == moment
                    )
                    content = np.array([spot[at] + later for spot in spots]) * path.kind.content_ml
                    held_ml += content[keys // stride % len(spots)]
                stride *= len(spots)
            keys, peaks = keys[held_ml >= kept.fuel_ml], peaks[held_ml >= kept.fuel_ml]
        return keys, peaks


def carried_kinds(problem: Problem) -> int:
    """A measure of how large a world is: how many distributions its kinds allow at most."""
    search = Search(problem)
    sizes = [
        int(np.prod([len(path.spots[k]) for path in search.paths], dtype=np.float64))
        for k in range(len(search.timeline.trips) + 1)
    ]
    return max(sizes, default=0)


__all__ = ["Search", "carried_kinds", "least_peak", "least_peak_of"]
