"""Those who follow plans: one look for all, and each hears what is new to them."""

import asyncio
from collections.abc import Awaitable, Callable, Mapping

import pytest

from service.errors import ServiceProblem
from service.jobs import followers as module
from service.jobs.followers import Followers
from service.storage.events import PlanEvent, PlanNews


class Plans:
    """Plans in memory that are looked at, with the places of each look."""

    def __init__(self) -> None:
        self.numbers = {"a": 1, "b": 1}
        self.looks: list[dict[str, int]] = []
        self.fault: Exception | None = None

    async def were_looked_at(self, times: int) -> None:
        """Wait until there were so many looks."""
        while len(self.looks) < times:  # noqa: ASYNC110 - the looks come from a thread
            await asyncio.sleep(0.01)

    def since(self, places: Mapping[str, int]) -> dict[str, PlanNews]:
        """What is new, as the storage tells it."""
        self.looks.append(dict(places))
        if self.fault is not None:
            raise self.fault
        return {
            plan_id: PlanNews(
                self.numbers[plan_id],
                [PlanEvent(n, "progress", 0, None) for n in range(1, self.numbers[plan_id] + 1)],
            )
            for plan_id in places
            if plan_id in self.numbers
        }


@pytest.fixture(autouse=True)
def quick_turns(monkeypatch):
    """A turn is short, so that tests are."""
    monkeypatch.setattr(module, "_TURN_SECONDS", 0.02)


def played(scene: Callable[[Plans, Followers], Awaitable[None]]) -> Plans:
    """Play a scene in a loop of its own; gives the plans with the looks at them."""
    plans = Plans()

    async def play() -> None:
        async with asyncio.timeout(20):
            followers = Followers(plans.since)
            await scene(plans, followers)
            await followers.stop()

    asyncio.run(play())
    return plans


async def numbers_heard(followers: Followers, plan_id: str, *, after: int) -> list[int] | None:
    """The numbers that one caller hears first; None where it is let go."""
    with followers.follow(plan_id, after=after) as follower:
        heard = await follower.hear(seconds=10)
        return None if heard is None else [event.number for event in heard]


def test_each_hears_what_is_new_to_them():
    """Callers of one plan at different places get all that comes after their own place."""

    async def scene(plans: Plans, followers: Followers) -> None:
        plans.numbers["a"] = 4
        heard = await asyncio.gather(
            *(numbers_heard(followers, "a", after=after) for after in (0, 2, 3))
        )
        assert heard == [[1, 2, 3, 4], [3, 4], [4]]

    assert played(scene).looks[0] == {"a": 0}


def test_four_hundred_are_looked_up_for_in_one_look():
    """A turn asks once, whoever follows; who has nothing new is not woken."""

    async def scene(plans: Plans, followers: Followers) -> None:
        of_a = [asyncio.create_task(numbers_heard(followers, "a", after=1)) for _ in range(200)]
        of_b = [asyncio.create_task(numbers_heard(followers, "b", after=1)) for _ in range(200)]
        await plans.were_looked_at(5)
        assert not any(task.done() for task in (*of_a, *of_b))
        plans.numbers["a"] = 2
        assert await asyncio.gather(*of_a) == [[2]] * 200
        assert not any(task.done() for task in of_b)
        assert len(plans.looks) < 9
        assert all(set(look) == {"a", "b"} for look in plans.looks[:5])
        followers.close()
        assert await asyncio.gather(*of_b) == [None] * 200

    played(scene)


def test_what_is_heard_is_told_once():
    """The next of the same caller is only what came later; silence is nothing, and no end."""

    async def scene(plans: Plans, followers: Followers) -> None:
        with followers.follow("a", after=0) as follower:
            assert [event.number for event in await follower.hear(seconds=10)] == [1]
            assert list(await follower.hear(seconds=0.1)) == []
            plans.numbers["a"] = 3
            assert [event.number for event in await follower.hear(seconds=10)] == [2, 3]

    played(scene)


@pytest.mark.parametrize("left", [None, 3])
def test_whoever_followed_a_plan_that_is_gone_is_let_go(left):
    """It was deleted, or a restored database has fewer events; others of the plan go on."""

    async def scene(plans: Plans, followers: Followers) -> None:
        plans.numbers["a"] = 3
        if left is None:
            del plans.numbers["a"]
        ahead = asyncio.create_task(numbers_heard(followers, "a", after=5))
        behind = asyncio.create_task(numbers_heard(followers, "a", after=2))
        assert await ahead is None
        assert await behind == (None if left is None else [3])

    played(scene)


def test_whoever_comes_during_a_look_is_not_judged_by_it():
    """The look began before the event that the new caller has already."""

    async def scene(plans: Plans, followers: Followers) -> None:
        first = asyncio.create_task(numbers_heard(followers, "a", after=1))
        look, begun, go_on = followers._look, asyncio.Event(), asyncio.Event()
        loop = asyncio.get_running_loop()

        def slow(places: Mapping[str, int]) -> Mapping[str, PlanNews]:
            found = look(places)
            loop.call_soon_threadsafe(begun.set)
            asyncio.run_coroutine_threadsafe(go_on.wait(), loop).result(10)
            return found

        followers._look = slow
        await begun.wait()
        followers._look = look
        plans.numbers["a"] = 7
        late = asyncio.create_task(numbers_heard(followers, "a", after=6))
        await asyncio.sleep(0)
        go_on.set()
        assert await late == [7]
        assert await first == [2, 3, 4, 5, 6, 7]

    played(scene)


@pytest.mark.parametrize("fault", [ServiceProblem("storage_unavailable"), ZeroDivisionError()])
def test_a_look_that_fails_lets_all_go_and_the_next_ones_follow_again(fault):
    """They come again and hear why; when the storage is back, following works as before."""

    async def scene(plans: Plans, followers: Followers) -> None:
        plans.fault = fault
        assert await numbers_heard(followers, "a", after=0) is None
        plans.fault = None
        assert await numbers_heard(followers, "a", after=0) == [1]

    played(scene)


def test_nobody_looks_where_nobody_follows():
    """The watch ends with the last caller, who may also go before it has heard anything."""

    async def scene(plans: Plans, followers: Followers) -> None:
        gone = asyncio.create_task(numbers_heard(followers, "a", after=1))
        await plans.were_looked_at(1)
        gone.cancel()
        await asyncio.sleep(0.1)
        seen = len(plans.looks)
        await asyncio.sleep(0.1)
        assert len(plans.looks) == seen
        assert not followers._following
        assert await numbers_heard(followers, "a", after=0) == [1]

    played(scene)


def test_whoever_comes_after_the_close_is_let_go_at_once():
    """A service that stops keeps nobody, and asks the database no more."""

    async def scene(plans: Plans, followers: Followers) -> None:
        followers.close()
        assert await numbers_heard(followers, "a", after=0) is None

    assert played(scene).looks == []
