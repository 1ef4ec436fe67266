"""One line: how many may wait, and whom a flood sends away."""

import asyncio

from service.http.line import Line


def test_a_flood_is_many_in_a_short_time_of_which_the_last_just_came():
    """Thirty within 250 ms, the newest at most 10 ms ago."""
    line = Line()
    line.came.extend(0.008 * number for number in range(29))
    assert not line.is_flooded(0.23)
    line.came.append(0.23)
    assert line.is_flooded(0.24)
    assert not line.is_flooded(0.241)
    line.came.append(0.27)
    assert not line.is_flooded(0.27)


def test_a_flood_sends_away_the_late_and_leaves_as_many_of_the_last_as_is_said():
    """Of three who came 30, 20 and 5 ms ago the first two go; of three late ones one may stay."""

    async def scene() -> None:
        for times, but, left in [((0.0, 0.01, 0.025), 0, 1), ((0.0, 0.001, 0.002), 1, 1)]:
            line = Line()
            for moment in times:
                line.join(moment)
            line.came.extend([0.03] * 30)
            line.send_away_late(0.03, but=but)
            assert len(line.waiting) == left

    asyncio.run(scene())


def test_one_answer_is_enough():
    """Whoever was let in or sent away hears nothing more."""

    async def scene() -> None:
        waiter = Line().join(0.0)
        assert not waiter.has_come_in()
        assert waiter.answer(comes_in=True)
        assert waiter.has_come_in()
        assert not waiter.answer(comes_in=False)

    asyncio.run(scene())
