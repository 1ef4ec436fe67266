"""The variant with the least or the most of a figure: by enumeration, and what is proven of it."""

from itertools import product
from random import Random

import pytest

from api_schema.choice import ChoiceRequest
from api_schema.comparison_answer import ComparisonRowAnswer
from api_schema.figures_answer import PlanFiguresAnswer
from service.reports.choice import beaten_variants, chosen_variant, known_figures


def row(name: str, outcome: str | None = "solved", **figures) -> ComparisonRowAnswer:
    """A row of a comparison with some figures; None for one that waits."""
    known = dict.fromkeys(PlanFiguresAnswer.model_fields) | {"outcome": outcome} | figures
    return ComparisonRowAnswer(
        name=name,
        edits=[],
        plan_id=None,
        state="queued" if outcome is None else "done",
        errors=[],
        figures=None if outcome is None else PlanFiguresAnswer(**known),
        change={},
        cost_change={},
        input=[],
        difference=None,
    )


def least(figure: str, *limits: dict, goal: str = "least") -> ChoiceRequest:
    """A choice with limits."""
    return ChoiceRequest.model_validate({"goal": goal, "figure": figure, "limits": list(limits)})


@pytest.mark.parametrize(
    ("figure", "goal"),
    [("days", "least"), ("people", "least"), ("flown_kg", "least"), ("client_days", "most")],
)
def test_the_choice_is_that_of_full_enumeration(figure, goal):
    """Over a hundred tables the best that keeps the limits is the one that looking at all finds."""
    chance = Random(figure)
    for _ in range(100):
        rows = [
            row(
                f"v{number}",
                chance.choice(["solved", "solved", "infeasible"]),
                days=chance.randint(5, 9),
                people=chance.randint(2, 5),
                client_days=chance.randint(5, 30),
                flown_kg=chance.randint(100, 400) / 1.0,
                peak=chance.randint(70, 99) / 100,
                gap=0.0,
            )
            for number in range(8)
        ]
        told = chosen_variant(rows, least(figure, {"figure": "peak", "most": 0.9}, goal=goal))
        fits = [r for r in rows if r.figures.outcome == "solved" and r.figures.peak <= 0.9]
        values = [getattr(r.figures, figure) for r in fits]
        if not values:
            assert told.name is None
            continue
        assert told.value == (min(values) if goal == "least" else max(values))
        assert told.name == next(r.name for r in fits if getattr(r.figures, figure) == told.value)


def test_fewest_people_are_proven_where_every_smaller_roster_is_infeasible():
    """Two people have no plan, three have one. A row that waits or had no time leaves it open."""
    rows = [row("two", "infeasible"), row("three", people=3), row("four", people=4)]
    told = chosen_variant(rows, least("people"))
    assert (told.name, told.value, told.proven) == ("three", 3.0, True)
    assert not chosen_variant([*rows, row("waits", None)], least("people")).proven
    assert not chosen_variant([*rows, row("late", "no_plan_in_time")], least("people")).proven


def test_nothing_is_proven_of_a_variant_whose_plan_was_deleted():
    """Nobody knows any more what it had, whether another variant is left to be chosen or not."""
    gone = row("gone", None).model_copy(update={"state": "deleted"})
    faulty = row("faulty", None).model_copy(update={"state": "faulty"})
    for rows, name in (([row("two", "infeasible")], None), ([row("three", people=3)], "three")):
        told = chosen_variant([*rows, faulty], least("people"))
        assert (told.name, told.proven) == (name, True)
        told = chosen_variant([*rows, faulty, gone], least("people"))
        assert (told.name, told.proven) == (name, False)


def test_a_gap_leaves_a_limit_on_the_peak_open():
    """A variant just over the limit may fit as far as its gap goes, and then nothing is proven."""
    limit = {"figure": "peak", "most": 0.9}
    for gap, proven in ((0.0, True), (0.05, False)):
        rows = [row("six", days=6, peak=0.85, gap=0.0), row("five", days=5, peak=0.91, gap=gap)]
        told = chosen_variant(rows, least("days", limit))
        assert (told.name, told.proven) == ("six", proven)


def test_mass_that_another_plan_could_lower_is_not_proven():
    """What is flown depends on the plan, so this is only the least of the plans that were found."""
    rows = [row("a", flown_kg=200.0), row("b", flown_kg=250.0)]
    told = chosen_variant(rows, least("flown_kg"))
    assert (told.name, told.proven) == ("a", False)
    assert chosen_variant(rows[:1], least("flown_kg")).proven


def test_nothing_is_chosen_where_nothing_keeps_the_limits():
    """It is proven if every variant is ruled out whatever its plan."""
    limit = {"figure": "days", "most": 4}
    rows = [row("five", days=5), row("none", "infeasible")]
    told = chosen_variant(rows, least("people", limit))
    assert (told.name, told.value, told.proven) == (None, None, True)


def test_every_figure_that_can_be_chosen_by_is_a_figure_of_the_table():
    """Least and most can be asked of each."""
    figures = ChoiceRequest.model_json_schema()["properties"]["figure"]["enum"]
    assert set(figures) <= set(PlanFiguresAnswer.model_fields)
    for figure, goal in product(figures, ("least", "most")):
        rows = [row("a", **{figure: 1}), row("b", **{figure: 2})]
        assert chosen_variant(rows, least(figure, goal=goal)).value == (1 if goal == "least" else 2)


def test_what_follows_from_a_request_is_known_before_it_is_solved():
    """Days, client days and people are; people are not where rope teams go apart."""
    request = {
        "calendar": [["road", "camp"], {"places": ["camp", "road"]}],
        "roster": [{"person_id": "lead", "guide": True}, {"person_id": "client"}],
    }
    assert known_figures(request) == {"days": 2.0, "client_days": 2.0, "people": 2.0}
    apart = request | {"calendar": [{"teams": {"a": ["road", "camp"]}}]}
    assert "people" not in known_figures(apart)
    assert known_figures(None) == {}


def test_variants_that_wait_are_beaten_where_they_cannot_be_chosen():
    """Those with more people, and with as many but later; the base and smaller ones never."""
    people = {"base": 5.0, "two": 2.0, "early": 3.0, "three": 3.0, "late": 3.0, "four": 4.0}
    rows = [row(name, None) for name in people]
    rows[3] = row("three", people=3, peak=0.9)
    known = {name: {"people": number} for name, number in people.items()}
    asked = least("people", {"figure": "peak", "most": 0.95})
    assert [one.name for one in beaten_variants(rows, asked, known)] == ["late", "four"]
    assert beaten_variants(rows, least("people", {"figure": "peak", "most": 0.8}), known) == []
    assert beaten_variants(rows, least("flown_kg"), known) == []


def test_a_variant_that_waits_leaves_nothing_open_where_it_cannot_be_better():
    """With what its request says, four people cannot beat three, and two may."""
    rows = [row("three", people=3), row("four", None)]
    known = {"four": {"people": 4.0}, "two": {"people": 2.0}}
    assert chosen_variant(rows, least("people"), known).proven
    assert not chosen_variant(rows, least("people")).proven
    assert not chosen_variant([*rows, row("two", None)], least("people"), known).proven
    most = chosen_variant(rows, least("people", goal="most"), known)
    assert (most.name, most.proven) == ("three", False)
