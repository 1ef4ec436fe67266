"""The chances that food, fuel and the summit hold, by a seeded draw of storms and mishaps.

A party follows its calendar day by day. On a day that travels, a storm at the place where it
slept or at any place that it would visit makes it wait one more night where it is. A day without
travel passes in any weather, and one that the calendar keeps for bad weather makes up for a night
that was waited. A night that was waited and not made up for is an extra night at its place. A leg
that is slow costs a day, too: nobody gets over it, they come back and try again the next day.

Food holds in a scenario where no place sees more extra nights than its reserve of food feeds, less
the sets of the place that are spoilt. Fuel likewise, without spoilt sets. The summit holds where
the extra nights so far, on the day that it is reached, are no more than the spare days. A reserve
may be lost with a chance of its own, to birds or ice.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.outlook.mishaps import draw_lost, draw_slow, draw_spoilt
from solver.outlook.storms import StormChance, draw_storms

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Step:
    """One day of the calendar: where the party slept, and the places and legs of its way.

    `spare` is a day that the calendar keeps for bad weather.
    """

    at: int
    visits: tuple[int, ...] = ()
    spare: bool = False
    legs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Reserve:
    """Nights of food and of fuel at a place beyond what the plan uses there.

    With `loss_chance` [1] it is lost, and only `nights_if_lost` are left of both. So many `people`
    eat a set a night. Of the `planned_sets` and of those in reserve each is spoilt with
    `spoilt_chance` [1], and another one takes its place.
    """

    place: int
    food_nights: int
    fuel_nights: int
    loss_chance: float = 0.0
    nights_if_lost: int = 0
    people: int = 1
    planned_sets: int = 0
    spoilt_chance: float = 0.0


@dataclass(frozen=True, slots=True)
class Policy:
    """A plan as storms meet it: its days in order, its reserves, and its summit.

    `summit_step` is the day of the calendar that reaches the summit, None for none;
    `spare_days` are the days by which that may be late.
    """

    steps: tuple[Step, ...]
    reserves: tuple[Reserve, ...]
    summit_step: int | None = None
    spare_days: int = 0


@dataclass(frozen=True, slots=True)
class Shares:
    """In how many of so many scenarios something holds; chance and standard error follow."""

    held: int
    scenarios: int

    @property
    def chance(self) -> float:
        """The share that holds [1]."""
        return self.held / self.scenarios

    @property
    def standard_error(self) -> float:
        """Standard error of the chance, sqrt(p (1 - p) / N) [1]."""
        return float(np.sqrt(self.chance * (1 - self.chance) / self.scenarios))

    def interval(self) -> tuple[float, float]:
        """Wilson's interval of 95 % for the chance [1].

        Source: E. B. Wilson, "Probable inference, the law of succession, and statistical
        inference", Journal of the American Statistical Association 22, 1927, from memory.
        """
        z, n, p = 1.959963984540054, self.scenarios, self.chance
        middle = (p + z * z / (2 * n)) / (1 + z * z / n)
        half = z / (1 + z * z / n) * float(np.sqrt(p * (1 - p) / n + z * z / (4 * n * n)))
        return max(middle - half, 0.0), min(middle + half, 1.0)


@dataclass(frozen=True, slots=True)
class Odds:
    """What holds how often, and whether each scenario held (scenarios,) for comparisons.

    `short_at` says by place in how many scenarios its reserve was too small.
    """

    food: Shares
    fuel: Shares
    summit: Shares | None
    everything: Shares
    short_at: tuple[tuple[int, int], ...]
    held: Bools


def odds(
    policy: Policy,
    chances: tuple[StormChance, ...],
    *,
    scenarios: int,
    seed: int,
    dates: int,
    slow: tuple[float, ...] = (),
) -> Odds:
    """Draw so many scenarios and play the policy in each.

    `chances` are those of each place by its number, `slow` those of each leg that nobody gets over
    it on a day [1]; `dates` are the days after which a party that still waits is counted as having
    failed in everything.
    """
    storms = draw_storms(chances, dates=dates, scenarios=scenarios, seed=seed)
    barred = draw_slow(slow, dates=dates, scenarios=scenarios, seed=seed)
    extra, late, finished = _play(policy, storms, barred)
    food = finished.copy()
    fuel = finished.copy()
    short: list[tuple[int, int]] = []
    for number, reserve in enumerate(policy.reserves):
        lost = draw_lost(seed, number, reserve.loss_chance, scenarios)
        nights = extra[:, reserve.place]
        enough_food = np.where(
            lost,
            _food_left(reserve, reserve.nights_if_lost, nights, seed, number),
            _food_left(reserve, reserve.food_nights, nights, seed, number),
        )
        enough_fuel = nights <= np.where(lost, reserve.nights_if_lost, reserve.fuel_nights)
        food &= enough_food
        fuel &= enough_fuel
        short.append((reserve.place, int((~(enough_food & enough_fuel)).sum())))
    summit = None if policy.summit_step is None else finished & (late <= policy.spare_days)
    everything = food & fuel if summit is None else food & fuel & summit

    def shares(held: Bools) -> Shares:
        return Shares(int(held.sum()), scenarios)

    return Odds(
        food=shares(food),
        fuel=shares(fuel),
        summit=None if summit is None else shares(summit),
        everything=shares(everything),
        short_at=tuple(short),
        held=everything,
    )


def _food_left(reserve: Reserve, held: int, nights: Ints, seed: int, number: int) -> Bools:
    """Whether so many nights of sets in reserve feed the extra nights and replace spoilt sets."""
    sets = reserve.planned_sets + held * reserve.people
    spoilt = draw_spoilt(seed, number, reserve.spoilt_chance, sets, len(nights))
    enough: Bools = nights * reserve.people + spoilt <= held * reserve.people
    return enough


def difference(one: Odds, other: Odds) -> tuple[float, float]:
    """How much likelier the first holds than the second, and the standard error of that [1].

    Both met the same scenarios: the error is that of the paired differences.
    """
    paired = one.held.astype(np.float64) - other.held.astype(np.float64)
    return float(paired.mean()), float(paired.std(ddof=1) / np.sqrt(len(paired)))


def _play(policy: Policy, storms: Bools, barred: Bools) -> tuple[Ints, Ints, Bools]:
    """Extra nights by scenario and place, days late at the summit, and who came to the end."""
    scenarios, places, dates = storms.shape
    extra = np.zeros((scenarios, places), dtype=np.int64)
    late = np.zeros(scenarios, dtype=np.int64)
    behind = np.zeros(scenarios, dtype=np.int64)
    step = np.zeros(scenarios, dtype=np.int64)
    where = np.array([one.at for one in policy.steps], dtype=np.int64)
    spare = np.array([one.spare for one in policy.steps], dtype=np.bool_)
    visits = np.zeros((len(policy.steps), places), dtype=np.bool_)
    for number, one in enumerate(policy.steps):
        if one.visits:
            visits[number, [one.at, *one.visits]] = True
    legs = np.zeros((len(policy.steps), barred.shape[1]), dtype=np.bool_)
    for number, one in enumerate(policy.steps):
        legs[number, [leg for leg in one.legs if leg < barred.shape[1]]] = True
    for date in range(dates):
        goes = np.flatnonzero(step < len(policy.steps))
        if not len(goes):
            break
        today = step[goes]
        waits = (visits[today] & storms[goes, :, date]).any(axis=1)
        waits |= (legs[today] & barred[goes, :, date]).any(axis=1)
        waiting = goes[waits]
        extra[waiting, where[step[waiting]]] += 1
        behind[waiting] += 1
        if policy.summit_step is not None:
            there = goes[~waits & (today == policy.summit_step)]
            late[there] = behind[there]
        step[goes[~waits]] += 1
        _make_up(step, behind, extra, spare, where)
    return extra, late, step >= len(policy.steps)


def _make_up(step: Ints, behind: Ints, extra: Ints, spare: Bools, where: Ints) -> None:
    """Leave out the spare days that come next for those who are behind.

    A spare day that is left out feeds one extra night at its own place.
    """
    while True:
        on = np.flatnonzero((step < len(spare)) & (behind > 0))
        on = on[spare[step[on]]]
        if not len(on):
            return
        extra[on, where[step[on]]] -= 1
        behind[on] -= 1
        step[on] += 1
