"""The words of findings: what a person reads of a load, a sled or a reserve that is wrong."""

import pytest

from solver.checker import check
from tests.rules import (
    test_fuel_spread,
    test_owner_carries,
    test_reserves_held,
    test_sled_only_on_sled_legs,
    test_total_cap_held,
    test_units_ride_with_people,
)
from tests.rules.worlds import Case

SLEDS = test_sled_only_on_sled_legs.CASES
RIDES = test_units_ride_with_people.CASES


def _named(cases: tuple[Case, ...], name: str) -> Case:
    return next(case for case in cases if case.name == name)


MESSAGES = (
    (
        _named(SLEDS, "on the pack leg"),
        "day 1, c1 to c2: m1 hauls sled s1 with 1 units, but no sled is hauled here",
    ),
    (
        _named(SLEDS, "hauled empty on the pack leg"),
        "day 1, c1 to c2: m1 hauls sled s1 with 0 units, but no sled is hauled here",
    ),
    (
        _named(SLEDS, "left at the start"),
        "day 1, strip to c1: sled s1 goes with m1 on this leg, the plan leaves it",
    ),
    (
        _named(SLEDS, "without its name"),
        (
            "day 1, strip to c1: m1 hauls a sled without a name with 1 units, but sled s1 is "
            "hauled here"
        ),
    ),
    (
        _named(RIDES, "a load left out that has nothing in it"),
        "no load is given for m2 on day 1, strip to c1, one is needed",
    ),
    (
        _named(RIDES, "an empty second load"),
        "2 loads are given for m1 on day 1, strip to c1, one is needed",
    ),
    (
        _named(RIDES, "a trip that nobody makes"),
        "day 2, strip to c1: nobody makes such a trip as step 2 of that day",
    ),
    (
        _named(test_fuel_spread.CASES, "all four"),
        (
            "pack of m2 on day 1, strip to c1: 4 of the 4 fuel containers of cook group g1 in it, "
            "at most 2 may be, 2 too many"
        ),
    ),
    (
        _named(test_total_cap_held.CASES, "above"),
        "pack and sled of m1 on day 1, strip to c1: 12.000 kg, cap 11.999 kg, 0.001 kg over",
    ),
    (
        _named(test_owner_carries.CASES, "on another's sled"),
        "sled s2 of m2 on day 1, strip to c1: 1 m1/bag in it, which only m1 carries",
    ),
    (
        _named(test_reserves_held.CASES, "food and fuel are told apart"),
        "reserve of cook group g1 at c1 on the night of day 1: 2 night sets storm too few",
    ),
)


@pytest.mark.parametrize(("case", "message"), MESSAGES)
def test_a_finding_says_who_when_where_and_how_much(case, message):
    """The first finding of a case reads as a person of the trade would put it."""
    assert check(case.problem, case.plan).findings[0].message == message
