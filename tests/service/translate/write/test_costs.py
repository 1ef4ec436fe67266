"""What one night out costs, added up by hand."""

import json

import pytest

from service.reports.comparisons import VariantPlan, comparison_rows, lines_of
from service.reports.figures import cost_difference, figures_of_outcome
from service.reports.purchases import purchases_of
from service.translate.read.requests import read_plan_request
from service.translate.write.costs import write_costs
from service.translate.write.outcomes import write_outcome
from tests.service.one_night_out import PLAN, REQUEST, SOLVED
from tests.service.reports.test_comparisons import answer
from tests.service.translate.read.test_prices import priced


def outcome_of(request: dict) -> dict:
    """The outcome of the plan for one night with the prices of a request."""
    return json.loads(write_outcome(SOLVED, read_plan_request(request)).model_dump_json())


def test_the_costs_add_up_by_kind():
    """A meal, a can and a sled have prices; rope and bag have none, which is said."""
    read = read_plan_request(priced(meal="12.50 EUR", can="9.00 EUR", red="60.05 EUR"))
    costs = write_costs(read, PLAN)
    assert (costs.currency, costs.total) == ("EUR", "81.55")
    assert [(k.kind, k.total, k.priced, k.without_price) for k in costs.kinds] == [
        ("food", "12.50", 1, 0),
        ("fuel", "9.00", 1, 0),
        ("gear", None, 0, 2),
        ("sled", "60.05", 1, 0),
    ]


def test_without_prices_there_are_no_costs():
    """No sum of nought stands anywhere: not in the outcome, the figures or the shopping list."""
    outcome = outcome_of(REQUEST)
    assert outcome["costs"] is None
    figures = figures_of_outcome(outcome)
    assert (figures.cost_total, figures.cost_food, figures.without_price) == (None, None, None)
    bought = purchases_of(read_plan_request(REQUEST), outcome)
    assert {(one.price_each, one.cost) for one in bought} == {(None, None)}


def test_the_figures_say_what_has_no_price():
    """The sum of food is there, that of gear is not, and how many are missing is."""
    figures = figures_of_outcome(outcome_of(priced(meal="12.50 EUR")))
    assert (figures.cost_food, figures.cost_total) == ("12.50 EUR", "12.50 EUR")
    assert (figures.cost_fuel, figures.cost_gear, figures.cost_sleds) == (None, None, None)
    assert figures.without_price == "fuel 1, gear 2, sled 1"


def test_the_shopping_list_has_each_price():
    """Each row with a price says what one costs and what all of them cost."""
    request = priced(meal="12.50 EUR", rope="18.00 EUR")
    bought = purchases_of(read_plan_request(request), outcome_of(request))
    assert {one.unit_id: (one.price_each, one.cost) for one in bought} == {
        "all/meal": ("12.50", "12.50"),
        "rope": ("18.00", "18.00"),
        "all/can": (None, None),
        "solo/bag": (None, None),
    }


@pytest.mark.parametrize(
    ("one", "other", "difference"),
    [
        ("0.10 EUR", "0.30 EUR", "+0.20 EUR"),
        ("12.00 EUR", "2.50 EUR", "-9.50 EUR"),
        ("12.00 EUR", "12.00 EUR", None),
        ("12.00 EUR", "12.00 CHF", None),
        (None, "1.00 EUR", None),
    ],
)
def test_costs_are_compared_as_decimals_of_one_currency(one, other, difference):
    """What has no price, or another currency, is not compared."""
    assert cost_difference(one, other) == difference


def test_a_comparison_says_what_a_variant_saves():
    """Row and table have the costs of both, and the variant minus the base."""
    base, other = priced(meal="12.50 EUR"), priced(meal="10.00 EUR", can="9.00 EUR")
    figures = [figures_of_outcome(outcome_of(request), request) for request in (base, other)]
    variants = [
        VariantPlan("base", (), (), None, "done", base, figures[0]),
        VariantPlan("other", (), (), None, "done", other, figures[1]),
    ]
    rows = comparison_rows(variants)
    assert rows[1].cost_change == {"cost_food": "-2.50 EUR", "cost_total": "+6.50 EUR"}
    assert rows[0].cost_change == {}
    lines = dict(lines_of(answer().model_copy(update={"rows": rows})))
    assert lines["cost_food"] == ["12.50 EUR", "10.00 EUR (-2.50)"]
