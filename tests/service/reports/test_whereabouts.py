"""Where alike units stand night by night, on a carry small enough to follow by hand."""

from typing import Any

from service.reports.whereabouts import Traced, Use, Wait, apart_from, trace, waits_of

BAG = "all/low"
PLACES = ("road", "cache", "camp")


def night(day: int, **counts: int) -> list[dict[str, Any]]:
    """The stock after a day: so many bags at each place."""
    return [
        {"day": day, "place": place, "units": [{"unit_id": BAG, "count": count}] if count else []}
        for place, count in counts.items()
    ]


def carry(day: int, step: int, way: tuple[str, str], count: int) -> dict[str, Any]:
    """One person's trip with so many bags."""
    return {
        "day": day,
        "step": step,
        "from": way[0],
        "to": way[1],
        "direction": "outbound" if PLACES.index(way[0]) < PLACES.index(way[1]) else "homeward",
        "loads": [{"pack": [{"unit_id": BAG, "count": count}], "sled": []}],
    }


# Nine bags: five ride to the cache on day 1, three of these on to the camp on day 2, where two are
# eaten; of the four at the road one is eaten on day 3; the rest of camp and cache comes back.
PLAN: dict[str, Any] = {
    "stock": [
        *night(0, road=9),
        *night(1, road=4, cache=5),
        *night(2, road=4, cache=2, camp=1),
        *night(3, road=6),
    ],
    "trips": [
        carry(1, 1, ("road", "cache"), 5),
        carry(2, 1, ("cache", "camp"), 3),
        carry(3, 1, ("camp", "cache"), 1),
        carry(3, 2, ("cache", "road"), 3),
    ],
}
USES = [Use(2, "camp", 2), Use(3, "road", 1)]


def test_units_wait_only_where_they_ride():
    """Bags for the camp wait at the cache; one bag that stays at the road waits nowhere else."""
    found = {(one.used, one.turns_at): (one.count, one.waits) for one in trace(PLAN, BAG, USES)}
    at_cache = (Wait("road", 0, 0), Wait("cache", 1, 1))
    assert found[(2, "camp"), "camp"] == (2, at_cache)
    assert sum(count for (used, _), (count, _) in found.items() if used is None) == 6
    assert found[None, None] == (3, (Wait("road", 0, 3),))
    assert found[None, "camp"] == (1, (*at_cache, Wait("camp", 2, 2), Wait("road", 3, 3)))


def test_the_traced_units_are_the_stock_of_each_night():
    """On each night as many units stand at each place as the plan's stock says."""
    traced = trace(PLAN, BAG, USES)
    assert sum(one.count for one in traced) == 9
    for stock in PLAN["stock"]:
        stood = sum(t.count for t in traced if (stock["day"], stock["place"]) in t.nights)
        assert stood == sum(unit["count"] for unit in stock["units"])


def test_two_who_meet_pass_each_other_within_a_step():
    """Bags that ride both ways on one leg at the same time do not ride back at once."""
    plan = {
        "stock": [*night(0, road=1, camp=1), *night(1, road=1, camp=1)],
        "trips": [carry(1, 1, ("road", "camp"), 1), carry(1, 1, ("camp", "road"), 1)],
    }
    assert [one.nights for one in trace(plan, BAG, [])] == [
        ((0, "camp"), (1, "road")),
        ((0, "road"), (1, "camp")),
    ]


def test_a_wait_that_is_broken_is_two():
    """Nights in a row at one place are one wait; a night elsewhere, or none, ends it."""
    nights = ((1, "a"), (2, "a"), (3, "b"), (5, "b"))
    assert waits_of(nights) == (Wait("a", 1, 2), Wait("b", 3, 3), Wait("b", 5, 5))
    assert Traced(1, None, nights).waits == waits_of(nights)


def test_what_stands_where_its_owner_does_not_sleep_is_apart():
    """Of the owner's things those at another place are listed, with the most of any night."""
    slept = {1: "road", 2: "camp", 3: "road"}
    assert apart_from(PLAN, slept, {BAG}) == {BAG: (5, [(1, "cache"), (2, "cache"), (2, "road")])}
    assert apart_from(PLAN, slept, {"other"}) == {}
