"""Days as an answer tells them: their dates and kinds."""

import datetime as dt

import pytest

from service.translate.write.days import date_of, kind_of
from solver.problem import Day, Visit
from tests.problem.small_world import small_world


def test_days_without_a_date() -> None:
    """Without a start date there are no dates, and the end of time is no crash."""
    assert date_of(None, 3) is None
    assert date_of(dt.date(9999, 12, 31), 2) is None


@pytest.mark.parametrize(
    ("places", "kind"),
    [
        (("camp",), "rest"),
        (("road", "camp"), "move"),
        (("road", "camp", "road"), "carry"),
        (("high", "camp", "high"), "back_carry"),
        (("camp", "road", "camp", "high", "camp"), "carry_both_ways"),
        (("high", "camp", "road"), "descent"),
        (("road", "camp", "road", "camp"), "relay"),
    ],
)
def test_kinds_of_days(places: tuple[str, ...], kind: str) -> None:
    """The kind of a day follows from the places visited."""
    assert kind_of(small_world(), Day((Visit(("north", "south"), places),))) == kind


def test_day_of_two_kinds() -> None:
    """A day on which rope teams do different things is split."""
    day = Day((Visit(("north",), ("camp",)), Visit(("south",), ("camp", "high"))))
    assert kind_of(small_world(), day) == "split"
