"""Callers that follow the events of plans in the web server's loop, and one look for all of them.

The look asks the database once for every plan that somebody follows, since another process may
have solved or deleted it. Whoever has nothing new sleeps on.
"""

import asyncio
import logging
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress

from starlette.concurrency import run_in_threadpool

from service.errors import ServiceProblem
from service.storage.events import PlanEvent, PlanNews

_TURN_SECONDS = 0.25

Look = Callable[[Mapping[str, int]], Mapping[str, PlanNews]]
"""What is new of each plan after the event of a number; plans that are gone are left out."""

logger = logging.getLogger(__name__)


class Follower:
    """One caller who follows one plan, and has its events up to the number `after`."""

    def __init__(self, plan_id: str, after: int) -> None:
        self.plan_id = plan_id
        self.after = after
        self._told = asyncio.Event()
        self._events: Sequence[PlanEvent] | None = ()

    def waits(self) -> bool:
        """Whether the caller has taken all that there was."""
        return not self._told.is_set()

    def tell(self, news: PlanNews | None) -> None:
        """Wake the caller if there is anything new; None: the plan or its known events are gone."""
        if news is None or news.last < self.after:
            self.let_go()
        elif events := [event for event in news.events if event.number > self.after]:
            self._events = events
            self.after = events[-1].number
            self._told.set()

    def let_go(self) -> None:
        """Wake the caller, for whom there will be no more."""
        self._events = None
        self._told.set()

    async def hear(self, *, seconds: float) -> Sequence[PlanEvent] | None:
        """What is new, nothing after so long [s]; None where there will be no more."""
        with suppress(TimeoutError):
            async with asyncio.timeout(seconds):
                await self._told.wait()
        events = self._events
        if events is not None:
            self._events = ()
            self._told.clear()
        return events


class Followers:
    """Everybody who follows a plan in this process."""

    def __init__(self, look: Look) -> None:
        self._look = look
        self._following: set[Follower] = set()
        self._watch: asyncio.Task[None] | None = None
        self._closed = False

    @contextmanager
    def follow(self, plan_id: str, *, after: int) -> Iterator[Follower]:
        """Follow a plan from the event of that number on, as long as this lasts."""
        follower = Follower(plan_id, after)
        self._following.add(follower)
        if self._closed:
            follower.let_go()
        elif self._watch is None or self._watch.done():
            self._watch = asyncio.create_task(self._take_turns())
        try:
            yield follower
        finally:
            self._following.discard(follower)

    def close(self) -> None:
        """Let everybody go, now and later, because the service stops."""
        self._closed = True
        _let_go(self._following)

    async def stop(self) -> None:
        """Let everybody go, and look no more."""
        self.close()
        if self._watch is not None:
            self._watch.cancel()
            with suppress(asyncio.CancelledError):
                await self._watch

    async def _take_turns(self) -> None:
        """Look again and again, as long as anybody follows."""
        while self._following and not self._closed:
            await asyncio.sleep(_TURN_SECONDS)
            # Whoever comes during a look may have more events than it sees.
            waiting = [follower for follower in self._following if follower.waits()]
            if waiting:
                await self._tell(waiting)

    async def _tell(self, waiting: list[Follower]) -> None:
        """Look once for all who wait, and tell each of them."""
        places: dict[str, int] = {}
        for follower in waiting:
            place = places.get(follower.plan_id, follower.after)
            places[follower.plan_id] = min(place, follower.after)
        try:
            news = await run_in_threadpool(self._look, places)
        except ServiceProblem:
            # They come again, and go on where they were or hear why not.
            _let_go(waiting)
        except Exception:
            logger.exception("followers: unexpected fault, letting them go")
            _let_go(waiting)
        else:
            for follower in waiting:
                follower.tell(news.get(follower.plan_id))


def _let_go(followers: Iterable[Follower]) -> None:
    for follower in followers:
        follower.let_go()
