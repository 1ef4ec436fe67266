"""Telling callers that wait in the web server's loop that a worker thread has finished a plan."""

import asyncio
import threading
from collections import defaultdict


class Completions:
    """Who waits for which plan. `announce` may be called from any thread."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._closed = False
        self._waiting: defaultdict[str, set[Waiter]] = defaultdict(set)

    def expect(self, plan_id: str) -> "Waiter":
        """Start listening for a plan; do so before asking whether it is finished already."""
        waiter = Waiter(plan_id)
        with self._lock:
            self._waiting[plan_id].add(waiter)
            if self._closed:
                waiter.tell()
        return waiter

    def forget(self, waiter: "Waiter") -> None:
        """Stop listening."""
        with self._lock:
            self._waiting[waiter.plan_id].discard(waiter)
            if not self._waiting[waiter.plan_id]:
                del self._waiting[waiter.plan_id]

    def waited_for(self) -> list[str]:
        """The plans that somebody waits for."""
        with self._lock:
            return list(self._waiting)

    def announce(self, plan_id: str) -> None:
        """Tell everybody who waits for this plan."""
        with self._lock:
            for waiter in self._waiting.get(plan_id, ()):
                waiter.tell()

    def close(self) -> None:
        """Let everybody go, now and later, because no plan will finish any more."""
        with self._lock:
            self._closed = True
            for waiters in self._waiting.values():
                for waiter in waiters:
                    waiter.tell()


class Waiter:
    """One caller who waits for one plan, in the event loop that made it."""

    def __init__(self, plan_id: str) -> None:
        self.plan_id = plan_id
        self._loop = asyncio.get_running_loop()
        self._told = asyncio.Event()

    def tell(self) -> None:
        """Wake the caller, from any thread."""
        self._loop.call_soon_threadsafe(self._told.set)

    async def wait(self, *, seconds: float) -> None:
        """Wait until told, for so long at most [s]."""
        try:
            async with asyncio.timeout(seconds):
                await self._told.wait()
        except TimeoutError:
            return
