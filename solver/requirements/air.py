"""Air and cold of each place: pressure, boiling point, wind chill, clothing; of each leg, clothing.

A place is as cold as its nights; a leg as its days, by a rule of its own.
"""

from __future__ import annotations

from dataclasses import replace

from solver.calculators.boiling_point import boiling_point_c
from solver.calculators.clothing_band import BANDS, Clothing, clothing_for
from solver.calculators.season_atmosphere import winter_caution
from solver.calculators.wind_chill import frostbite_band, wind_chill_c
from solver.problem import Place, Problem, Timeline
from solver.requirements.daytime import COLDEST_C, STRONGEST_KMH, WARMEST_C, daytime
from solver.requirements.figures import About, Figure, Input, Notice, Part
from solver.requirements.surroundings import (
    elevation,
    night_temperature,
    out_of_range,
    places_visited,
    pressure,
    sleepers,
    wind,
)

CHART_ENDS_KMH = 80.0
ATMOSPHERE = "ICAO, Manual of the ICAO Standard Atmosphere, Doc 7488, 3rd ed. 1993"
BOILING = "IAPWS R7-97(2012), region 4"
CHILL = "Osczevski and Bluestein, 2005, doi 10.1175/BAMS-86-10-1453"
WINTER = "Anderson et al., AFGL Atmospheric Constituent Profiles, AFGL-TR-86-0110, 1986"
CLOTHING = "bands of felt temperature: common practice, no source"
COLD_INJURY = Notice(
    "cold_injury",
    (),
    "Frostbite and cooling of the whole body come sooner when wet, tired, hungry or high up than "
    "any table says. Look at each other's faces, change wet gloves and socks, and treat numb "
    "fingers or toes, shivering or stumbling at once.",
    is_caution=True,
)


def air(problem: Problem, timeline: Timeline) -> Part:
    """Pressure, boiling point, wind chill and clothing of the trip's places and legs."""
    parts = [
        _place(problem, problem.route.place(place_id)) for place_id in places_visited(timeline)
    ]
    parts.extend(_legs(problem, timeline))
    parts.append(_winter(problem, timeline))
    return Part(
        tuple(figure for part in parts for figure in part.figures),
        (*(notice for part in parts for notice in part.notices), COLD_INJURY),
    )


def _place(problem: Problem, place: Place) -> Part:
    about: About = (("place_id", place.place_id),)
    figures: list[Figure] = []
    notices: list[Notice] = []
    try:
        of_air = pressure(elevation_m=place.elevation_m)
        pressure_hpa = float(of_air.value)
        boils_c = boiling_point_c(pressure_hpa=pressure_hpa)
    except ValueError as error:
        notices.append(out_of_range("air_pressure", about, error))
    else:
        of_place = (elevation(place),)
        figures += [
            Figure(
                "air_pressure", about, pressure_hpa, "hPa",
                "1013.25 (1 - 0.0065 H / 288.15)^5.25588", ATMOSPHERE, "computed", of_place,
            ),
            Figure(
                "boiling_point", about, boils_c, "degC",
                "saturation temperature at the air pressure", BOILING, "computed",
                (*of_place, of_air),
            ),
        ]  # fmt: skip
    try:
        night = _night(place)
        chill, remarks = _wind_chill(problem, night, about)
    except ValueError as error:
        notices.append(out_of_range("wind_chill", about, error))
    else:
        figures.append(chill)
        notices.extend(remarks)
    clothing = _clothing(problem, place, about)
    return Part((*figures, *clothing.figures), (*notices, *clothing.notices))


def _night(place: Place) -> Input:
    return night_temperature(
        elevation_m=place.elevation_m, night_temperature_c=place.night_temperature_c
    )


def _wind_chill(problem: Problem, night: Input, about: About) -> tuple[Figure, list[Notice]]:
    """Wind chill of a night, and the band of frostbite; ValueError out of the chart's range."""
    blows = wind(problem.conditions)
    notices = []
    if float(blows.value) > CHART_ENDS_KMH:
        blows = replace(blows, value=CHART_ENDS_KMH, source="where the published chart ends")
        notices.append(
            Notice(
                "wind_beyond_chart",
                about,
                f"A wind of {problem.conditions.wind_kmh:g} km/h is beyond the published chart of "
                "wind chill, which ends at 80 km/h; the figure is that of 80 km/h and it is "
                "colder than that.",
            )
        )
    chill_c = wind_chill_c(air_temperature_c=float(night.value), wind_km_h=float(blows.value))
    band = frostbite_band(wind_chill_c=chill_c)
    notices.append(
        Notice(
            "frostbite_band",
            about,
            f"At {night.value:g} degC and {blows.value:g} km/h it feels like {chill_c:.1f} degC: "
            f"{band.name}, bare skin can freeze in {band.minutes}.",
        )
    )
    figure = Figure(
        "wind_chill", about, chill_c, "degC",
        "13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16; below 5 km/h "
        "T + (0.1345 T - 1.59) V / 5",
        CHILL, "read", (night, blows),
    )  # fmt: skip
    return figure, notices


def _clothing(problem: Problem, place: Place, about: About) -> Part:
    """Clothing band of a place at night."""
    blows = wind(problem.conditions)
    try:
        night = _night(place)
        clothing = clothing_for(air_temperature_c=float(night.value), wind_km_h=float(blows.value))
    except ValueError as error:
        return Part(notices=(out_of_range("clothing_band", about, error),))
    return _band(clothing, about, (night, blows), ())


def _band(
    clothing: Clothing, about: About, inputs: tuple[Input, ...], held: tuple[str, ...]
) -> Part:
    """A clothing band as a figure and in words, with what was held at the end of the range."""
    rank = [band.name for band in BANDS].index(clothing.band) + 1
    figure = Figure(
        "clothing_band", about, rank, f"band, 1 mild to {len(BANDS)} extreme",
        "band of the wind chill; above 10 degC of the air", CLOTHING, "practice",
        inputs,
    )  # fmt: skip
    beyond = f" Beyond the range of the wind chill: {'; '.join(held)}." if held else ""
    message = (
        f"It feels like {clothing.felt_temperature_c:.0f} degC, which is {clothing.band}: "
        f"{', '.join(clothing.needed)}.{beyond}"
    )
    return Part((figure,), (Notice("clothing_band", about, message),))


def _legs(problem: Problem, timeline: Timeline) -> list[Part]:
    """Clothing band of each leg by day."""
    parts = []
    for leg in {trip.leg.leg_id: trip.leg for trip in timeline.trips}.values():
        day = daytime(problem, leg)
        clothing = clothing_for(
            air_temperature_c=min(WARMEST_C, max(COLDEST_C, float(day.temperature.value))),
            wind_km_h=min(STRONGEST_KMH, float(day.wind.value)),
        )
        about = (("leg_id", leg.leg_id),)
        parts.append(_band(clothing, about, (day.temperature, day.wind), day.held))
    return parts


def _winter(problem: Problem, timeline: Timeline) -> Part:
    """What high latitude takes from the air; of the highest camp alone where none is given."""
    if problem.conditions.high_latitude is False:
        return Part()
    camps = sorted(
        (problem.route.place(place_id) for place_id in sleepers(timeline)),
        key=lambda place: place.elevation_m,
    )
    is_given = problem.conditions.high_latitude is not None
    figures: list[Figure] = []
    notices: list[Notice] = []
    for place in camps if is_given else camps[-1:]:
        about: About = (("place_id", place.place_id),)
        try:
            caution = winter_caution(geometric_height_m=place.elevation_m)
        except ValueError as error:
            notices.append(out_of_range("winter_pressure", about, error))
            continue
        if is_given:
            inputs = (elevation(place),)
            figures.append(
                Figure(
                    "winter_pressure", about, caution.winter_hpa, "hPa",
                    "subarctic winter profile", WINTER, "computed", inputs,
                )
            )  # fmt: skip
        words = "" if is_given else "Whether the expedition is at high latitude is not given. "
        notices.append(
            Notice("high_latitude_winter", about, words + caution.sentence, is_caution=True)
        )
    return Part(tuple(figures), tuple(notices))
