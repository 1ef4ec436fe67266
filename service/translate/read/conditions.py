"""Conditions and physiques of a request, read into the facts that requirements compute with."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from decimal import Decimal

from api_schema.conditions import ConditionsRequest, GasBlendRequest
from api_schema.roster import PersonRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes, pointer_to
from solver.problem import (
    Conditions,
    FuelKind,
    Physique,
    Season,
    Sex,
    SleepingRule,
    TravelMethod,
)

LARGEST_WATER_L = 20.0
LARGEST_WIND_KMH = 400.0


def read_conditions(
    wire: ConditionsRequest,
    roster: Sequence[PersonRequest],
    notes: Notes,
    *,
    start: dt.date | None = None,
) -> Conditions:
    """The facts given; what is left out stays None, for the requirements to fill in and show.

    `start` is the date of the first day, whose month says what sun there is.
    """
    propane, isobutane, n_butane = _read_blend(wire.gas_blend, notes)

    def number(
        field: str, read: Callable[[str], float], *, least: float, most: float, unit: str
    ) -> float | None:
        text: str | None = getattr(wire, field)
        if text is None:
            return None
        pointer = f"/conditions/{field}"
        return _within(read(text), pointer, notes, least=least, most=most, unit=unit)

    efficiency_percent = number("stove_efficiency", _percent, least=10, most=75, unit="%")
    appetite_percent = number("appetite_loss", _percent, least=0, most=90, unit="%")
    return Conditions(
        physiques=tuple(
            _read_physique(person, index, notes)
            for index, person in enumerate(roster)
            if any(fact is not None for fact in (person.age_years, person.height, person.sex))
        ),
        fuel_kind=None if wire.fuel_kind is None else FuelKind(wire.fuel_kind),
        stove_efficiency=None if efficiency_percent is None else efficiency_percent / 100,
        snow_temperature_c=number(
            "snow_temperature", quantities.temperature_c, least=-40, most=0, unit="degC"
        ),
        melted_l=number("melted_water", quantities.litres, least=0, most=LARGEST_WATER_L, unit="L"),
        boiled_l=number("boiled_water", quantities.litres, least=0, most=LARGEST_WATER_L, unit="L"),
        isobutane_share=isobutane,
        n_butane_share=n_butane,
        propane_share=propane,
        canister_temperature_c=number(
            "canister_temperature", quantities.temperature_c, least=-60, most=60, unit="degC"
        ),
        wind_kmh=number(
            "wind", quantities.kilometres_per_hour, least=0, most=LARGEST_WIND_KMH, unit="km/h"
        ),
        high_latitude=wire.high_latitude,
        sleeping_rule=None if wire.sleeping_rule is None else SleepingRule(wire.sleeping_rule),
        travel_method=None if wire.travel_method is None else TravelMethod(wire.travel_method),
        travel_factor=wire.travel_factor,
        sled_friction=wire.sled_friction,
        simmer_minutes=number("simmering", _minutes, least=0, most=60, unit="min"),
        priming_g=number("priming", quantities.grams, least=0, most=50, unit="g"),
        season=None if wire.season is None else Season(wire.season),
        latitude_deg=number("latitude", quantities.degrees, least=-90, most=90, unit="deg"),
        month=None if start is None else start.month,
        stove_power_w=number("stove_power", quantities.watts, least=100, most=5000, unit="W"),
        melting_hours=number("melting_time", quantities.hours, least=0.5, most=16, unit="h"),
        panel_power_w=number("solar_panel", quantities.watts, least=0, most=500, unit="W"),
        appetite_loss_share=None if appetite_percent is None else appetite_percent / 100,
    )


def _minutes(text: str) -> float:
    return quantities.hours(text) * 60


def _percent(text: str) -> float:
    return float(quantities.percent_exactly(text))


def _within(
    value: float, pointer: str, notes: Notes, *, least: float, most: float, unit: str
) -> float:
    if not least <= value <= most:
        notes.fault(
            pointer,
            "out_of_range",
            f"This must be between {least:g} and {most:g} {unit}. Check number and unit.",
        )
    return min(max(value, least), most)


def _read_physique(person: PersonRequest, index: int, notes: Notes) -> Physique:
    height_m = None
    if person.height is not None:
        pointer = pointer_to("roster", index, "height")
        height_m = _within(
            quantities.metres(person.height), pointer, notes, least=1.0, most=2.5, unit="m"
        )
    return Physique(
        person_id=person.person_id,
        age_years=person.age_years,
        height_m=height_m,
        sex=None if person.sex is None else Sex(person.sex),
    )


def _read_blend(
    blend: GasBlendRequest | None, notes: Notes
) -> tuple[float | None, float | None, float | None]:
    """Shares of propane, isobutane and n-butane; all three or none."""
    if blend is None:
        return None, None, None
    texts = (blend.propane, blend.isobutane, blend.n_butane)
    percents = [quantities.percent_exactly(text) for text in texts]
    if sum(percents) != Decimal(100):
        notes.fault(
            "/conditions/gas_blend",
            "shares_do_not_add_up",
            "The shares of propane, isobutane and n-butane must add up to 100 %.",
        )
    propane, isobutane, n_butane = (float(percent / 100) for percent in percents)
    return propane, isobutane, n_butane
