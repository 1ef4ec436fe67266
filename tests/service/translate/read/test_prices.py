"""Prices of a request: one currency, decimal, by what a plan calls the things."""

import copy
from decimal import Decimal

import pytest

from api_schema.examples import SMALLEST_REQUEST, STORED_MENU
from service.errors import RequestFaults
from service.translate.read.prices import Prices
from service.translate.read.requests import read_plan_request
from tests.service.one_night_out import REQUEST


def priced(**prices) -> dict:
    """The request of one night with prices of some things."""
    request = copy.deepcopy(REQUEST)
    things = {
        "meal": request["menu"]["night_sets"][0],
        "can": request["fuel"]["containers"][0],
        "rope": request["gear"][0],
        "bag": request["roster"][0]["personal_kit"][0],
        "red": request["sleds"][0],
    }
    for name, price in prices.items():
        things[name]["price"] = price
    return request


def test_each_thing_has_the_price_of_where_it_was_read_from():
    """Sets, containers, shared and personal things and sleds; what has none is in no table."""
    prices = read_plan_request(
        priced(meal="12.50 EUR", can="9 EUR", rope="18.2 EUR", bag="7.00 EUR", red="60.00 EUR")
    ).prices
    assert prices.currency == "EUR"
    assert prices.of_unit == {
        "all/meal": Decimal("12.50"),
        "all/can": Decimal(9),
        "rope": Decimal("18.2"),
        "solo/bag": Decimal(7),
    }
    assert prices.of_sled == {"red": Decimal(60)}
    only = read_plan_request(priced(can="0 EUR")).prices
    assert (only.of_unit, only.of_sled) == ({"all/can": Decimal(0)}, {})


def test_a_request_without_prices_has_no_currency():
    """Nothing is nought unless somebody says so."""
    assert read_plan_request(REQUEST).prices == Prices()


def test_a_bag_costs_what_its_sets_cost():
    """Three sets of 0.10 in a bag are 0.30, without the error of a binary fraction."""
    menu = copy.deepcopy(STORED_MENU["menu"])
    menu["night_sets"][0] |= {"sets_per_bag": 3, "price": "0.10 EUR"}
    prices = read_plan_request(SMALLEST_REQUEST | {"menu": menu}).prices
    assert prices.of_unit == {"all/dried": Decimal("0.30")}


def test_a_part_comes_with_the_price_of_the_whole():
    """The first part has the price of the item, the other costs nothing by itself."""
    request = priced(rope="80.00 EUR")
    rope = request["gear"][0]
    del rope["mass"], rope["volume"]
    rope["parts"] = [
        {"part_id": name, "mass": "1 kg", "volume": "2 L"} for name in ("half", "other")
    ]
    of_unit = read_plan_request(request).prices.of_unit
    assert (of_unit["rope.half"], of_unit["rope.other"]) == (Decimal(80), Decimal(0))


def test_a_flight_has_its_price():
    """By its id, whoever is on it."""
    flight = {"flight_id": "in-1", "direction": "fly_in", "payload": "300 kg", "seats": 1}
    request = REQUEST | {"flights": [flight | {"price": "1450.00 EUR"}]}
    assert read_plan_request(request).prices.of_flight == {"in-1": Decimal(1450)}


def test_two_currencies_are_a_fault():
    """It points to each price that is in another currency than the first one."""
    with pytest.raises(RequestFaults) as raised:
        read_plan_request(priced(meal="1.00 EUR", can="2.00 CHF", red="3.00 CHF"))
    faults = {(fault.pointer, fault.code) for fault in raised.value.faults}
    assert faults == {
        ("/fuel/containers/0/price", "mixed_currencies"),
        ("/sleds/0/price", "mixed_currencies"),
    }


@pytest.mark.parametrize(
    "price", [12.5, "12.50", "12,50 EUR", "-1 EUR", "1.005 EUR", "1 eur", "1 EUR\n", "1e3 EUR", ""]
)
def test_a_price_is_text_with_its_currency(price):
    """A number, a sign, a third decimal or a missing currency is a fault that says how to write."""
    with pytest.raises(RequestFaults) as raised:
        read_plan_request(priced(can=price))
    (fault,) = raised.value.faults
    assert (fault.pointer, fault.code) == ("/fuel/containers/0/price", "not_a_price")
    assert "12.50 EUR" in fault.detail
