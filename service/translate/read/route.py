"""Places and legs of a request, read onto the grid."""

from __future__ import annotations

from api_schema.route import CacheRequest, PlaceRequest, RouteRequest
from service.translate.read import quantities
from service.translate.read.defaults import PRACTICE
from service.translate.read.legs import read_leg
from service.translate.read.notes import Notes, pointer_to
from solver.problem import CacheDanger, CacheSite, Place, PlaceKind, Route

DEEPEST_CACHE_M = 20


def read_route(route: RouteRequest, start_place: str | None, notes: Notes) -> Route:
    """The route; `start_place` is where day 1 begins, if the calendar says."""
    summits = {leg.to for leg in route.legs if leg.mode == "summit"}
    notes.point(("route",), "/route")
    kinds = dict.fromkeys(summits, PlaceKind.SUMMIT)
    if start_place is not None:
        kinds[start_place] = PlaceKind.ROAD_HEAD
    places = tuple(
        _read_place(place, index, kinds.get(place.place_id, PlaceKind.CAMP), notes)
        for index, place in enumerate(route.places)
    )
    taken = {leg.leg_id for leg in route.legs}
    free = (f"leg-{n}" for n in range(1, 1000) if f"leg-{n}" not in taken)
    legs = tuple(
        read_leg(leg, index, leg.leg_id or next(free), notes)
        for index, leg in enumerate(route.legs)
    )
    return Route(places, legs)


def _read_place(
    place: PlaceRequest,
    index: int,
    kind_else: PlaceKind,
    notes: Notes,
) -> Place:
    pointer = pointer_to("route", "places", index)
    notes.point(("route", "places", index), pointer)
    if place.kind is not None:
        kind = PlaceKind(place.kind)
    else:
        kind = kind_else
        notes.assume(f"{pointer}/kind", "What the place is for.", kind.value, PRACTICE)
    return Place(
        place_id=place.place_id,
        elevation_m=notes.within(
            quantities.whole_nearest(place.elevation),
            f"{pointer}/elevation",
            least=-430,
            most=8849,
            unit="m",
        ),
        kind=kind,
        night_temperature_c=None if place.night is None else quantities.temperature_c(place.night),
        name=place.name or "",
        cache=None if place.cache is None else _read_cache(place.cache, pointer, notes),
    )


def _read_cache(cache: CacheRequest, place_pointer: str, notes: Notes) -> CacheSite:
    """How a cache is made; what is not said stays None."""

    def metres(field: str) -> float | None:
        text: str | None = getattr(cache, field)
        if text is None:
            return None
        value_m = quantities.metres(text)
        if value_m > DEEPEST_CACHE_M:
            notes.fault(
                f"{place_pointer}/cache/{field}",
                "out_of_range",
                f"This must be between 0 and {DEEPEST_CACHE_M} m. Check number and unit.",
            )
        return value_m

    return CacheSite(
        depth_m=metres("depth"),
        poles=cache.poles,
        pole_above_snow_m=metres("pole_above_snow"),
        expected_snow_m=metres("expected_snow"),
        has_position=cache.position,
        has_label=cache.label,
        dangers=tuple(CacheDanger(danger) for danger in dict.fromkeys(cache.dangers)),
    )
