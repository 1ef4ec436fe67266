"""Legs of a route, read onto the grid."""

from __future__ import annotations

from api_schema.route import LegRequest
from service.translate.read import quantities
from service.translate.read.defaults import PRACTICE, sled_factor_percent
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Hazard, Leg, LegMode, SnowKind, TrailBreaking

DEEPEST_SINKAGE_CM = 100
STRONGEST_WIND_KMH = 400


def read_leg(leg: LegRequest, index: int, leg_id: str, notes: Notes) -> Leg:
    """One leg with what is known of it, and the shares of sled limits that hold on it."""
    pointer = pointer_to("route", "legs", index)
    notes.point(("route", "legs", index), pointer)
    notes.point(("route", "legs", index, "from_place"), f"{pointer}/from")
    steepest_deg = None if leg.steepest_angle is None else quantities.degrees(leg.steepest_angle)
    if steepest_deg is not None and steepest_deg > 90:
        notes.fault(f"{pointer}/steepest_angle", "out_of_range", "A slope is at most 90 deg.")
    up, down = _sled_factors(leg, steepest_deg, pointer, notes)
    return Leg(
        leg_id=leg_id,
        from_place=leg.from_,
        to_place=leg.to,
        mode=LegMode(leg.mode),
        sled_factor_outbound_percent=up,
        sled_factor_homeward_percent=down,
        distance_m=_metres(leg.distance, f"{pointer}/distance", notes),
        ascent_m=_metres(leg.ascent, f"{pointer}/ascent", notes),
        descent_m=_metres(leg.descent, f"{pointer}/descent", notes),
        steepest_deg=steepest_deg,
        crevasse_hazard=None if leg.crevasse_hazard is None else Hazard(leg.crevasse_hazard),
        traverse=leg.traverse,
        hours_outbound=None if leg.hours_outbound is None else quantities.hours(leg.hours_outbound),
        hours_homeward=None if leg.hours_homeward is None else quantities.hours(leg.hours_homeward),
        snow=None if leg.snow is None else SnowKind(leg.snow),
        sinkage_cm=_at_most(
            None if leg.sinkage is None else 100 * quantities.metres(leg.sinkage),
            f"{pointer}/sinkage",
            notes,
            most=DEEPEST_SINKAGE_CM,
            unit="cm",
        ),
        trail=None if leg.trail is None else TrailBreaking(leg.trail),
        day_temperature_c=None
        if leg.day_temperature is None
        else quantities.temperature_c(leg.day_temperature),
        day_wind_kmh=_at_most(
            None if leg.day_wind is None else quantities.kilometres_per_hour(leg.day_wind),
            f"{pointer}/day_wind",
            notes,
            most=STRONGEST_WIND_KMH,
            unit="km/h",
        ),
    )


def _at_most(
    value: float | None, pointer: str, notes: Notes, *, most: float, unit: str
) -> float | None:
    """The value; above the most that is taken it is noted as a fault."""
    if value is not None and value > most:
        notes.fault(
            pointer,
            "out_of_range",
            f"This must be between 0 and {most:g} {unit}. Check number and unit.",
        )
    return value


def _sled_factors(
    leg: LegRequest, steepest_deg: float | None, pointer: str, notes: Notes
) -> tuple[int, int]:
    if leg.sled_factor_outbound is not None:
        up = _factor(leg.sled_factor_outbound, f"{pointer}/sled_factor_outbound", notes)
    else:
        up = sled_factor_percent(steepest_deg)
        if leg.mode == "sled":
            seen = "the steepest angle" if steepest_deg is not None else "an unknown slope"
            notes.assume(
                f"{pointer}/sled_factor_outbound",
                f"Share of the sled limits that holds going out, from {seen}.",
                f"{up} %",
                PRACTICE,
            )
    if leg.sled_factor_homeward is not None:
        return up, _factor(leg.sled_factor_homeward, f"{pointer}/sled_factor_homeward", notes)
    if leg.mode == "sled":
        notes.assume(
            f"{pointer}/sled_factor_homeward",
            "Share of the sled limits that holds coming back, as going out.",
            f"{up} %",
            PRACTICE,
        )
    return up, up


def _factor(text: str, pointer: str, notes: Notes) -> int:
    return notes.within(quantities.whole_down(text), pointer, least=0, most=100, unit="%")


def _metres(text: str | None, pointer: str, notes: Notes) -> int | None:
    if text is None:
        return None
    metres = quantities.whole_nearest(text)
    return notes.within(metres, pointer, least=0, most=1_000_000, unit="m")
