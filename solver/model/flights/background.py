"""Flights settled beside the search on the ground, which neither waits for nor touches them."""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor
from types import TracebackType
from typing import Self

from solver.model.flights.solve_flights import FlightAnswer, solve_flights
from solver.model.instance.world import World
from solver.outcome import Limits
from solver.progress import Watch


class BackgroundFlights:
    """Settles the flights in a thread of its own; the solver works without Python's lock.

    While the block runs the search is stopped as soon as the flights are known to be impossible.
    """

    def __init__(self, world: World, limits: Limits, watch: Watch) -> None:
        self._watch, self._stop_before = watch, watch.wish_to_stop
        self._asked = bool(world.problem.flights)
        self._own = Watch(
            watch.wall_seconds,
            now=watch.now,
            steady_seconds=watch.steady_seconds,
            begun=watch.begun,
        )
        self._pool = ThreadPoolExecutor(max_workers=1)
        self._answer: Future[FlightAnswer] = self._pool.submit(
            solve_flights, world, limits, self._own
        )
        watch.wish_to_stop = self._should_stop

    def __enter__(self) -> Self:
        """The flights, under way."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Wait for the thread to end."""
        self._watch.wish_to_stop = self._stop_before
        self._pool.shutdown()

    def answer(self) -> FlightAnswer:
        """What came of the flights, once it is known."""
        answer = self._answer.result()
        self._watch.clock_ended |= self._own.clock_ended
        if self._asked:
            self._watch.finish_stage("flights", None, 0)
        return answer

    def _should_stop(self) -> bool:
        if self._answer.done() and self._answer.exception() is None:
            answer = self._answer.result()
            if answer.conflicts or not answer.in_time:
                return True
        return self._stop_before()
