"""What is known of people, snow, weather and stoves: facts that the requirements compute with.

Every field may be None, and then a named default is used and listed as an assumption.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Sex(StrEnum):
    """Which of the two sets of energy equations fits a person."""

    MALE = "male"
    FEMALE = "female"


class FuelKind(StrEnum):
    """What the stoves burn."""

    WHITE_GAS = "white_gas"
    KEROSENE = "kerosene"
    CANISTER_GAS = "canister_gas"


class Season(StrEnum):
    """Season of the expedition, for snow and cold that nothing else gives."""

    WINTER = "winter"
    SPRING = "spring"
    SUMMER = "summer"


class SleepingRule(StrEnum):
    """Whose rule on gaining sleeping elevation is applied."""

    WMS = "wms"
    CDC = "cdc"
    UIAA = "uiaa"
    CAUTIOUS = "cautious"


class TravelMethod(StrEnum):
    """By which method travel times are computed."""

    NAISMITH = "naismith"
    LANGMUIR = "langmuir"
    TOBLER = "tobler"
    DIN_33466 = "din_33466"
    MUNTER = "munter"


@dataclass(frozen=True, slots=True)
class Physique:
    """What energy equations ask of a person."""

    person_id: str
    age_years: float | None = None
    height_m: float | None = None
    sex: Sex | None = None


@dataclass(frozen=True, slots=True)
class Conditions:
    """Facts of the trip; masses of gas in a blend are shares of its mass and add up to 1.

    `melted_l` and `boiled_l` are water per person and day, the boiled part not in the melted.
    `simmer_minutes` (at sea level) and `priming_g` are one person's share of a night's cooking.
    `travel_factor` lengthens travel times for loads, sleds and ropes. `latitude_deg` is below 0
    south of the equator; `month` is that of the first day. `stove_power_w` is what one stove
    puts into the pot, `melting_hours` the time for melting and boiling each evening and morning.
    """

    physiques: tuple[Physique, ...] = ()
    fuel_kind: FuelKind | None = None
    stove_efficiency: float | None = None
    snow_temperature_c: float | None = None
    melted_l: float | None = None
    boiled_l: float | None = None
    isobutane_share: float | None = None
    n_butane_share: float | None = None
    propane_share: float | None = None
    canister_temperature_c: float | None = None
    wind_kmh: float | None = None
    high_latitude: bool | None = None
    sleeping_rule: SleepingRule | None = None
    travel_method: TravelMethod | None = None
    travel_factor: float | None = None
    sled_friction: float | None = None
    appetite_loss_share: float | None = None
    simmer_minutes: float | None = None
    priming_g: float | None = None
    season: Season | None = None
    latitude_deg: float | None = None
    month: int | None = None
    stove_power_w: float | None = None
    melting_hours: float | None = None
    panel_power_w: float | None = None
