"""The points of a GPX file, read as a stream: tracks by segment, routes and waypoints.

Expat calls for each element, and no tree is built, so that a million points need only their
numbers. A DOCTYPE is refused, numbers are held to their ranges, NaN is none.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from xml.parsers import expat

from service.errors import RequestFaults
from service.files.read import limits
from service.files.read.places import file_fault

_LONGEST_TEXT = 200
_LOWEST_M, _HIGHEST_M = -430.0, 8849.0


@dataclass(slots=True)
class Points:
    """Points in order: latitude and longitude [deg], elevation [m], three numbers each."""

    latitude: array[float] = field(default_factory=lambda: array("d"))
    longitude: array[float] = field(default_factory=lambda: array("d"))
    elevation: array[float] = field(default_factory=lambda: array("d"))
    without_elevation: int = 0

    def __len__(self) -> int:
        """The number of points with an elevation."""
        return len(self.elevation)


@dataclass(frozen=True, slots=True)
class Waypoint:
    """A named point [deg, deg, m]; the elevation may be missing."""

    name: str | None
    latitude: float
    longitude: float
    elevation: float | None


@dataclass(slots=True)
class GpxFile:
    """What a GPX file holds: each track's name and segments, the waypoints, the routes' points."""

    tracks: list[tuple[str | None, list[Points]]] = field(default_factory=list)
    waypoints: list[Waypoint] = field(default_factory=list)
    route_points: list[Waypoint] = field(default_factory=list)
    points: int = 0


class BadGpxError(ValueError):
    """A file that cannot be read, with the code of the fault and what is wrong."""

    def __init__(self, code: str, detail: str) -> None:
        super().__init__(detail)
        self.code = code


def read_gpx(path: Path, file: str) -> GpxFile:
    """The points of a GPX file; RequestFaults for bad XML, a DOCTYPE, or a point that is none."""
    reader = _Reader()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = _refuse_doctype
    parser.StartElementHandler = reader.begin
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    try:
        with path.open("rb") as stream:
            parser.ParseFile(stream)
    # A text that no codec reads is a LookupError or ValueError of Python's own.
    except (expat.ExpatError, LookupError, UnicodeError):
        raise _refused(file, "bad_xml", "The file is not XML.") from None
    except BadGpxError as error:
        raise _refused(file, error.code, str(error)) from None
    return reader.found


class _Reader:
    """Takes what the parser calls out; of open elements it keeps their names and one text."""

    def __init__(self) -> None:
        self.found = GpxFile()
        self._open: list[str] = []
        self._point: tuple[str, str] = ("", "")
        self._elevation: str | None = None
        self._name: str | None = None
        self._text = ""

    def begin(self, tag: str, given: dict[str, str]) -> None:
        """An element begins."""
        name = tag.rpartition(" ")[2]
        self._text = ""
        if not self._open and name != "gpx":
            raise BadGpxError("not_gpx", "The file is not GPX. Export the track as GPX.")
        if name in ("trkpt", "wpt", "rtept"):
            self._point = (given.get("lat", ""), given.get("lon", ""))
            self._elevation = self._name = None
        elif name == "trk":
            self.found.tracks.append((None, []))
        elif name == "trkseg" and self.found.tracks:
            self.found.tracks[-1][1].append(Points())
        self._open.append(name)

    def text(self, text: str) -> None:
        """Some text of the element that began last; longer than a name it is not kept."""
        if len(self._text) < _LONGEST_TEXT:
            self._text += text

    def end(self, tag: str) -> None:
        """An element ends."""
        self._open.pop()
        parent = self._open[-1] if self._open else ""
        match tag.rpartition(" ")[2]:
            case "ele" if parent in ("trkpt", "wpt", "rtept"):
                self._elevation = self._text
            case "name" if parent in ("wpt", "rtept"):
                self._name = self._text
            case "name" if parent == "trk":
                self.found.tracks[-1] = (self._text.strip() or None, self.found.tracks[-1][1])
            case "trkpt" if parent == "trkseg" and self.found.tracks:
                self._add_track_point(self.found.tracks[-1][1][-1])
            case "wpt":
                self._add_named(self.found.waypoints)
            case "rtept":
                self._add_named(self.found.route_points)

    def _add_track_point(self, points: Points) -> None:
        self.found.points += 1
        if self.found.points > limits.POINTS:
            raise _too_many(limits.POINTS, "track points")
        latitude, longitude, elevation = self._numbers("Track point", self.found.points)
        if elevation is None:
            points.without_elevation += 1
            return
        points.latitude.append(latitude)
        points.longitude.append(longitude)
        points.elevation.append(elevation)

    def _add_named(self, points: list[Waypoint]) -> None:
        if len(points) >= limits.WAYPOINTS:
            raise _too_many(limits.WAYPOINTS, "waypoints or route points")
        name = (self._name or "").strip() or None
        points.append(Waypoint(name, *self._numbers("Waypoint or route point", len(points) + 1)))

    def _numbers(self, what: str, number: int) -> tuple[float, float, float | None]:
        try:
            latitude, longitude = float(self._point[0]), float(self._point[1])
            elevation = float(self._elevation) if self._elevation else None
        except ValueError:
            detail = f"{what} {number} has something that is no number."
            raise BadGpxError("bad_point", detail) from None
        # NaN is within no range, so the comparisons refuse it as well.
        if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
            raise BadGpxError("bad_point", f"{what} {number} has a position out of range.")
        if elevation is not None and not _LOWEST_M <= elevation <= _HIGHEST_M:
            within = f"{_LOWEST_M:.0f} to {_HIGHEST_M:.0f} m"
            raise BadGpxError("bad_point", f"{what} {number} has an elevation outside {within}.")
        return latitude, longitude, elevation


def _refuse_doctype(*_: object) -> None:
    raise BadGpxError("doctype", "The file has a DOCTYPE, which no GPX file has.")


def _too_many(most: int, what: str) -> BadGpxError:
    return BadGpxError("too_large", f"The file has more than {most} {what}. Thin it out.")


def _refused(file: str, code: str, detail: str) -> RequestFaults:
    return RequestFaults((file_fault(file, code, detail),))


def segments_of(found: GpxFile) -> Iterator[Points]:
    """The segments of all tracks that have at least two points with an elevation."""
    for _, segments in found.tracks:
        yield from (segment for segment in segments if len(segment) > 1)
