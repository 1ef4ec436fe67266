"""A route from a GPX file: places from waypoints or ends of tracks, legs with their figures."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np

from api_schema.route_file_answer import LegProfileAnswer, RouteFileAnswer, SmoothingAnswer
from service.errors import RequestFaults
from service.files.read.assumed import Assumed
from service.files.read.gpx_points import GpxFile, Points, Waypoint, read_gpx, segments_of
from service.files.read.ids import id_from
from service.files.read.places import file_fault, shown
from service.files.read.track_profile import (
    BIN_M,
    REVERSAL_M,
    STEP_M,
    Profile,
    Track,
    distance_m,
    profile_of,
    track_of,
)

_OFF_TRACK_M = 250.0
"""A waypoint that is further from the track is no place of it [m]."""
_MOST_PROFILE_POINTS = 200
_METHOD = (
    f"Points within {STEP_M:.0f} m are averaged into one position, and distance is the sum of the "
    f"ways between them. Elevations are averaged over bins of {BIN_M:.0f} m. A rise or fall counts "
    f"from {REVERSAL_M:.0f} m on. The steepest angle is that between neighbouring bins, so short "
    "steps are steeper."
)


@dataclass(frozen=True, slots=True)
class Stop:
    """A place on the route: its name, its elevation [m], and its step on the track, if any."""

    name: str | None
    elevation: float
    step: int = -1


def read_route(path: Path, file: str) -> RouteFileAnswer:
    """The places and legs of a GPX file, outbound in the order of the track, with what was assumed.

    Waypoints near the track cut it into legs. Without waypoints each track is a leg. Without a
    track the legs lead straight from waypoint to waypoint. Raises RequestFaults.
    """
    found = read_gpx(path, file)
    assumed = Assumed()
    segments = list(segments_of(found))
    lost = sum(s.without_elevation for _, track in found.tracks for s in track)
    if lost:
        assumed.note(f"{lost} track points without an elevation are left out.")
    if segments:
        track = track_of(segments)
        stops = _stops(found, segments, track, assumed)
        profiles = [profile_of(track, first.step, last.step) for first, last in pairwise(stops)]
        _note_gaps(track, assumed)
    else:
        stops, profiles = _straight(found, file, assumed)
    return _answer(stops, profiles, found, assumed, on_track=bool(segments))


def _stops(found: GpxFile, segments: list[Points], track: Track, assumed: Assumed) -> list[Stop]:
    """Places along the track in its order: those of the waypoints, and both ends."""
    near = []
    for waypoint in found.waypoints:
        away, step = _nearest(track, waypoint)
        if away > _OFF_TRACK_M:
            assumed.note(
                f"Waypoints more than {_OFF_TRACK_M:.0f} m from the track are left out: "
                f"{shown(waypoint.name or 'without a name')}."
            )
        else:
            near.append((step, waypoint.name))
    if not near:
        near = _ends_of_tracks(found, segments)
        assumed.note("There are no waypoints on the track. Each end of a track is a place.")
    by_step = dict(sorted(near, key=lambda stop: stop[0]))
    last = len(track.distance) - 1
    for step, name in ((0, "start"), (last, "end")):
        if not any(abs(track.distance[s] - track.distance[step]) <= _OFF_TRACK_M for s in by_step):
            by_step[step] = name
            assumed.note("An end of the track without a waypoint is a place.")
    return [
        Stop(name, float(track.elevation[step]), step) for step, name in sorted(by_step.items())
    ]


def _nearest(track: Track, waypoint: Waypoint) -> tuple[float, int]:
    """How far a waypoint is from the track [m], and the first step that is nearest."""
    across = np.cos(np.radians(waypoint.latitude))
    east = (track.longitude - waypoint.longitude + 180.0) % 360.0 - 180.0
    away = np.hypot(track.latitude - waypoint.latitude, east * across)
    step = int(np.argmin(away))
    here = (float(track.latitude[step]), float(track.longitude[step]))
    return distance_m(here, (waypoint.latitude, waypoint.longitude)), step


def _ends_of_tracks(found: GpxFile, segments: list[Points]) -> list[tuple[int, str | None]]:
    """The first step of each track and the last of all, with names made from those of tracks."""
    ends: list[tuple[int, str | None]] = []
    step, last_name = 0, None
    for name, parts in found.tracks:
        inside = [part for part in parts if any(part is segment for segment in segments)]
        if inside:
            ends.append((step, None if name is None else f"start of {name}"))
            step += sum(len(track_of([part]).distance) for part in inside)
    last_name = next(
        (n for n, parts in reversed(found.tracks) if any(len(p) > 1 for p in parts)), ""
    )
    ends.append((step - 1, f"end of {last_name}" if last_name else None))
    return ends


def _note_gaps(track: Track, assumed: Assumed) -> None:
    for jump_m in track.jumps_m:
        if jump_m > BIN_M:
            assumed.note(f"The track has a gap of {jump_m:.0f} m, which is in no distance.")


def _straight(found: GpxFile, file: str, assumed: Assumed) -> tuple[list[Stop], list[Profile]]:
    """Places and legs from waypoints alone, or from the points of a route."""
    points = found.route_points or found.waypoints
    if len(points) < 2:
        detail = "There is neither a track with elevations nor two waypoints."
        raise RequestFaults((file_fault(file, "no_track", detail),))
    bare = [shown(p.name or f"point {n}") for n, p in enumerate(points, 1) if p.elevation is None]
    if bare:
        detail = f"These points have no elevation: {', '.join(bare[:20])}."
        raise RequestFaults((file_fault(file, "no_elevation", detail),))
    assumed.note(
        "There is no track. Legs lead straight from point to point, so that distance and ascent "
        "are the least possible. The steepest angle is not known."
    )
    stops = [Stop(p.name, p.elevation or 0.0) for p in points]
    profiles = []
    for one, other in pairwise(points):
        way_m = distance_m((one.latitude, one.longitude), (other.latitude, other.longitude))
        rise = (other.elevation or 0.0) - (one.elevation or 0.0)
        bins = ((0.0, one.elevation or 0.0), (way_m, other.elevation or 0.0))
        profiles.append(Profile(way_m, max(rise, 0.0), max(-rise, 0.0), 0.0, bins))
    return stops, profiles


def _answer(
    stops: list[Stop],
    profiles: list[Profile],
    found: GpxFile,
    assumed: Assumed,
    *,
    on_track: bool,
) -> RouteFileAnswer:
    assumed.note("The mode of every leg is pack. Write sled, fixed_rope or summit where it is so.")
    assumed.note("Camps, cache sites and summits are not told apart. Write the kind of each place.")
    taken: set[str] = set()
    places: list[dict[str, Any]] = []
    for number, stop in enumerate(stops, 1):
        name = {} if stop.name is None else {"name": stop.name[:120]}
        place_id = id_from(stop.name or "", taken, otherwise=f"place-{number}")
        places.append({"place_id": place_id, **name, "elevation": f"{stop.elevation:.0f} m"})
    legs, figures = [], []
    for number, profile in enumerate(profiles):
        leg = {
            "leg_id": f"leg-{number + 1}",
            "from": places[number]["place_id"],
            "to": places[number + 1]["place_id"],
            "mode": "pack",
            "distance": f"{profile.distance_m:.0f} m",
            "ascent": f"{profile.ascent_m:.0f} m",
            "descent": f"{profile.descent_m:.0f} m",
        }
        if on_track:
            leg["steepest_angle"] = f"{profile.steepest_deg:.1f} deg"
        legs.append(leg)
        figures.append(_figures(leg["leg_id"], profile))
    return RouteFileAnswer(
        route={"places": places, "legs": legs},
        legs=figures,
        source="track" if on_track else "waypoints",
        points=found.points,
        smoothing=SmoothingAnswer(bin_m=BIN_M, reversal_m=REVERSAL_M, method=_METHOD),
        assumed=assumed.answers(),
    )


def _figures(leg_id: str, profile: Profile) -> LegProfileAnswer:
    every = -(-len(profile.bins) // _MOST_PROFILE_POINTS)
    return LegProfileAnswer(
        leg_id=leg_id,
        distance_m=round(profile.distance_m, 1),
        ascent_m=round(profile.ascent_m, 1),
        descent_m=round(profile.descent_m, 1),
        steepest_deg=round(profile.steepest_deg, 2),
        profile=[[round(d, 1), round(e, 1)] for d, e in profile.bins[::every]],
    )
