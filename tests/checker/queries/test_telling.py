"""How findings name masses, trips and runs of nights."""

from solver.checker.queries.telling import (
    Run,
    kg,
    litres,
    litres_needed,
    litres_of_room,
    nights_words,
    runs,
    trip_where,
    trip_words,
    trips_words,
)
from tests.checker.replaying import facts_of


def test_grams_and_millilitres_are_written_in_full():
    """Nothing is rounded away."""
    assert (kg(12_345), litres(7)) == ("12.345 kg", "0.007 L")


def test_what_must_fit_is_never_told_smaller_nor_the_room_larger():
    """In litres with one decimal, a need is rounded up and room is rounded down."""
    assert [litres_needed(ml) for ml in (0, 1, 100, 3801)] == ["0.0 L", "0.1 L", "0.1 L", "3.9 L"]
    assert [litres_of_room(ml) for ml in (99, 100, 3899)] == ["0.0 L", "0.1 L", "3.8 L"]


def test_neighbouring_nights_with_one_amount_are_a_run():
    """Another amount or a gap begins a new run, and nights that lack nothing are left out."""
    found = runs([(1, 2), (2, 2), (3, 1), (4, 0), (5, 1)])
    assert found == [Run(1, 2, 2), Run(3, 3, 1), Run(5, 5, 1)]
    assert [run.words for run in found[:2]] == ["nights of days 1 to 2", "night of day 3"]
    assert found[0].where == (("day", 1), ("last_day", 2))
    assert found[1].where == (("day", 3),)


def test_a_trip_is_named_by_its_day_and_places():
    """Words for people, and pairs for programs."""
    (trip, _) = facts_of().timeline.trips
    assert trip_words(trip) == "day 1, strip to c1"
    assert trip_where(trip) == (
        ("day", 1),
        ("step", 1),
        ("from_place", "strip"),
        ("to_place", "c1"),
    )


def test_of_many_trips_the_first_few_are_named():
    """Three are named, and the rest are counted."""
    trips = facts_of("strip-c1-strip " * 2 + "strip").timeline.trips
    assert trips_words(trips[:1]) == "day 1, strip to c1"
    assert trips_words(trips).endswith("day 2, strip to c1; and 1 more trip")


def test_nights_are_told_place_by_place_in_spans():
    """Days in a row are a span, and a day told twice counts once."""
    told = [(3, "c1"), (4, "c1"), (8, "c1"), (4, "c1"), (5, "c2")]
    assert nights_words(told) == (
        "at c1 on the nights of days 3 to 4, 8; at c2 on the night of day 5"
    )
