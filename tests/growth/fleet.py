"""A seeded simulation of workers on one PostgreSQL, from measured costs and solve times.

Each worker solves one plan after another. Before a solve it claims, which costs work of the
database; while it solves it renews its lease, looks at the caller's wish and tells of progress;
and at all times it probes, rescues and tops up the queue. The database is a queue with so many
cores that serve whoever came first. Nothing else is modelled: no network, and no lack of plans.
"""

import heapq
import random
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Costs:
    """Work of the database for each kind of thing [s of one core], and delays outside of it."""

    claim: float
    finish: float
    renew: float
    look: float
    tell: float
    second: float
    """What one worker process costs in each second, solving or not."""
    between: float
    """From one plan's end to the start of the next solve at an idle database [s]."""
    connections: float = 5.0
    """Connections that one worker process holds."""


@dataclass(frozen=True)
class Fleet:
    """So many workers, and the database that they share."""

    workers: int
    database_cores: int = 2
    lease_seconds: float = 10.0
    look_seconds: float = 0.3
    tell_seconds: float = 2.0


@dataclass
class Served:
    """What a fleet did within the time."""

    plans: int
    seconds: float
    busy: float
    claim_waits: list[float] = field(repr=False)
    late_renewals: int = 0

    @property
    def an_hour(self) -> float:
        """Plans solved an hour."""
        return self.plans * 3600 / self.seconds

    def claim_p99(self) -> float:
        """The wait for a claim that one in a hundred exceeds [s]."""
        waits = sorted(self.claim_waits)
        return waits[int(0.99 * (len(waits) - 1))] if waits else 0.0


class _Simulation:
    """Events in order of time: (time, number, what to do next)."""

    def __init__(self, fleet: Fleet, costs: Costs, solves: Sequence[float], seed: int) -> None:
        self.fleet, self.costs, self.solves = fleet, costs, solves
        self.chance = random.Random(seed)
        self.now, self.busy = 0.0, 0.0
        self.events: list = []
        self.number = 0
        self.free = fleet.database_cores
        self.waiting: deque = deque()
        self.served = Served(0, 0.0, 0.0, [])
        self.begun, self.in_order = 0, False

    def at(self, time: float, act) -> None:
        """Do something at a time."""
        self.number += 1
        heapq.heappush(self.events, (time, self.number, act))

    def ask(self, cost: float, then) -> None:
        """Have the database do so much work, and go on with the time that it took."""
        self.waiting.append((self.now, cost, then))
        self._serve()

    def _serve(self) -> None:
        while self.free and self.waiting:
            asked_at, cost, then = self.waiting.popleft()
            self.free -= 1
            self.busy += cost

            def done(asked_at=asked_at, then=then) -> None:
                self.free += 1
                then(self.now - asked_at)
                self._serve()

            self.at(self.now + cost, done)

    def worker(self) -> None:
        """One worker, which begins at some moment of the first second."""
        begin = self.chance.random()
        self.at(begin, self._claim)
        self._each_second(begin)

    def _each_second(self, at: float) -> None:
        self.at(at, lambda: self.ask(self.costs.second, lambda _: self._each_second(self.now + 1)))

    def _claim(self) -> None:
        def begun(waited: float) -> None:
            self.served.claim_waits.append(waited)
            ends_at = self.now + self.costs.between + self._next_solve()
            third = self.fleet.lease_seconds / 3
            self._again(third, self.costs.renew, ends_at, most=2 * third)
            self._again(self.fleet.look_seconds, self.costs.look, ends_at)
            self._again(self.fleet.tell_seconds, self.costs.tell, ends_at)
            self.at(ends_at, lambda: self.ask(self.costs.finish, ended))

        def ended(_waited: float) -> None:
            self.served.plans += 1
            self._claim()

        self.ask(self.costs.claim, begun)

    def _again(self, pause: float, cost: float, until: float, most: float = 1e9) -> None:
        """Ask the same again and again while a solve lasts; count answers later than `most`."""

        def answered(waited: float) -> None:
            self.served.late_renewals += waited > most
            self._again(pause, cost, until, most)

        if self.now + pause < until:
            self.at(self.now + pause, lambda: self.ask(cost, answered))

    def _next_solve(self) -> float:
        self.begun += 1
        if self.in_order:
            return self.solves[(self.begun - 1) % len(self.solves)]
        return self.chance.choice(self.solves)

    def run(self, seconds: float, plans: int | None) -> Served:
        """Let so much time pass, or so many plans be solved."""
        while self.events and self.now < seconds and self.served.plans != plans:
            self.now, _, act = heapq.heappop(self.events)
            act()
        self.served.seconds = self.now
        self.served.busy = self.busy / self.now / self.fleet.database_cores
        return self.served


def simulate(
    fleet: Fleet,
    costs: Costs,
    solves: Sequence[float],
    *,
    seconds: float = 600.0,
    plans: int | None = None,
    seed: int = 1,
) -> Served:
    """What a fleet does with plans whose solves take one of the given times [s], always waiting.

    It solves so many `plans`, whose times are then taken in order, or it works for some `seconds`.
    """
    simulation = _Simulation(fleet, costs, solves, seed)
    simulation.in_order = plans is not None
    for _ in range(fleet.workers):
        simulation.worker()
    return simulation.run(seconds, plans)
