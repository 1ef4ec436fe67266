"""Routes from GPX files: truth within noise, and clear refusals."""

import math
import time

import pytest

from api_schema.examples import SMALLEST_TRACK
from api_schema.route import RouteRequest
from service.files.read import limits
from service.files.read.gpx_points import read_gpx
from service.files.read.gpx_route import read_route
from service.files.read.track_profile import ascent_and_descent, distance_m, profile_of, track_of
from tests.service.files.books import codes_in, elevation_m, made_track

TRUE_ASCENT_M = sum(max(0.0, elevation_m(d + 1) - elevation_m(d)) for d in range(14_000))
TRUE_STEEPEST_DEG = max(
    math.degrees(math.atan(abs(elevation_m(d + 1) - elevation_m(d)))) for d in range(14_000)
)


@pytest.fixture
def read(tmp_path):
    """Reads a text as a route."""

    def of(text: str | bytes):
        path = tmp_path / "t.gpx"
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        return read_route(path, "t.gpx")

    return of


def gpx(inside: str) -> str:
    """A GPX file."""
    return f'<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1">{inside}</gpx>'


def point(lat: object, ele: object = 1000, tag: str = "trkpt", lon: object = 10) -> str:
    """One point."""
    return f'<{tag} lat="{lat}" lon="{lon}"><ele>{ele}</ele></{tag}>'


@pytest.mark.parametrize("points", [2_000, 20_000])
def test_distance_and_ascent_are_true_within_noise(read, points):
    """With noise of 3 m in place and elevation, distance and ascent are within 1 % of the truth."""
    answer = read(made_track(points, noise_m=3))
    assert [leg["to"] for leg in answer.route["legs"]] == ["camp-1", "camp-2"]
    assert sum(leg.distance_m for leg in answer.legs) == pytest.approx(14_000, rel=0.01)
    assert sum(leg.ascent_m for leg in answer.legs) == pytest.approx(TRUE_ASCENT_M, rel=0.01)


def test_the_steepest_angle_nears_the_truth_with_more_points(read):
    """Without noise it is within half a degree of the truth; with noise it errs upwards."""
    exact = max(leg.steepest_deg for leg in read(made_track(5_000, noise_m=0)).legs)
    noisy = max(leg.steepest_deg for leg in read(made_track(20_000, noise_m=3)).legs)
    assert exact == pytest.approx(TRUE_STEEPEST_DEG, abs=0.5)
    assert TRUE_STEEPEST_DEG - 0.5 < noisy < TRUE_STEEPEST_DEG + 2


@pytest.mark.slow
def test_a_million_points_are_read_in_time(read):
    """10^6 points take under 10 s of CPU, and a million and one are refused."""
    text = made_track(limits.POINTS, noise_m=3)
    begin = time.process_time()
    answer = read(text)
    assert time.process_time() - begin < 10
    assert sum(leg.ascent_m for leg in answer.legs) == pytest.approx(TRUE_ASCENT_M, rel=0.01)


def test_one_point_too_many_is_refused(read, monkeypatch):
    """The limit counts points, not bytes."""
    monkeypatch.setattr(limits, "POINTS", 10)
    assert read(made_track(10, noise_m=0)).points == 10
    assert codes_in(read, made_track(11, noise_m=0)) == [("too_large", "")]


def test_what_comes_out_is_the_route_of_a_request(read):
    """Places and legs keep to the models, and each leg joins neighbours."""
    route = read(made_track(500, noise_m=0)).route
    assert RouteRequest.model_validate(route)
    assert [p["place_id"] for p in route["places"]] == ["road", "camp-1", "camp-2"]
    assert RouteRequest.model_validate(read(SMALLEST_TRACK).route)


def test_a_waypoint_off_the_track_is_left_out_and_named(read):
    """A place more than 250 m from the track is none of it; the ends of the track are places."""
    track = "".join(point(60 + n / 1000) for n in range(20))
    far = '<wpt lat="60.01" lon="11"><name>Hut</name></wpt>'
    answer = read(gpx(f"{far}<trk><name>Icefall</name><trkseg>{track}</trkseg></trk>"))
    assert [p["name"] for p in answer.route["places"]] == ["start of Icefall", "end of Icefall"]
    assert any("Hut" in assumption.what for assumption in answer.assumed)


def test_gaps_between_segments_are_in_no_distance(read):
    """The way between two segments is named and not counted."""
    one = "".join(point(60 + n / 1000) for n in range(5))
    two = "".join(point(60.1 + n / 1000) for n in range(5))
    answer = read(gpx(f"<trk><trkseg>{one}</trkseg><trkseg>{two}</trkseg></trk>"))
    assert sum(leg.distance_m for leg in answer.legs) == pytest.approx(8 * 111.19, rel=0.001)
    assert any("gap of 10675 m" in assumption.what for assumption in answer.assumed)


def test_each_track_is_a_leg_without_waypoints(read):
    """Two tracks end to end give three places."""
    one = "".join(point(60 + n / 1000) for n in range(5))
    two = "".join(point(60.004 + n / 1000) for n in range(5))
    answer = read(gpx(f"<trk><trkseg>{one}</trkseg></trk><trk><trkseg>{two}</trkseg></trk>"))
    assert len(answer.route["legs"]) == 2


def test_waypoints_alone_give_straight_legs(read):
    """Without a track, distance is straight and the angle is left open."""
    wpts = point(60, 1450, "wpt") + point(60.09, 2050, "wpt")
    answer = read(gpx(wpts))
    (leg,) = answer.route["legs"]
    assert (leg["distance"], leg["ascent"], leg["descent"]) == ("10008 m", "600 m", "0 m")
    assert "steepest_angle" not in leg
    assert answer.source == "waypoints"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("<!DOCTYPE gpx [<!ENTITY a 'b'>]>" + gpx(""), "doctype"),
        ("<kml/>", "not_gpx"),
        ("<gpx>", "bad_xml"),
        (b"\xff\xfe nonsense", "bad_xml"),
        (gpx(""), "no_track"),
        (gpx(f"<trk><trkseg>{point('nan')}</trkseg></trk>"), "bad_point"),
        (gpx(f"<trk><trkseg>{point('inf')}</trkseg></trk>"), "bad_point"),
        (gpx(f"<trk><trkseg>{point(60, 'high')}</trkseg></trk>"), "bad_point"),
        (gpx(f"<trk><trkseg>{point(60, 9000)}</trkseg></trk>"), "bad_point"),
        (gpx('<wpt lat="60" lon="10"/><wpt lat="61" lon="10"/>'), "no_elevation"),
        (gpx(point(60, tag="wpt") * 41), "too_large"),
    ],
)
def test_a_file_that_is_no_route_is_refused(read, text, code):
    """Each refusal has a code and names the file."""
    assert codes_in(read, text) == [(code, "")]


def test_points_without_elevation_are_left_out(read):
    """They are counted in the assumptions, and the rest is read."""
    track = "".join(point(60 + n / 1000) for n in range(5)) + '<trkpt lat="60.1" lon="10"/>'
    answer = read(gpx(f"<trk><trkseg>{track}</trkseg></trk>"))
    assert any("1 track points" in assumption.what for assumption in answer.assumed)


@pytest.mark.parametrize(
    ("elevations", "ascent", "descent"),
    [
        ([0, 100], 100, 0),
        ([100, 0], 0, 100),
        ([0, 4, 0, 4, 0], 4, 0),
        ([0, 50, 46, 100], 100, 0),
        ([0, 50, 40, 100], 110, 10),
        ([7], 0, 0),
    ],
)
def test_small_reversals_add_nothing(elevations, ascent, descent):
    """A fall of 4 m within a rise is noise, one of 10 m counts twice."""
    assert ascent_and_descent(elevations) == (ascent, descent)


def test_a_track_may_cross_the_180th_meridian(tmp_path):
    """Two positions on both sides of it are a short way apart."""
    path = tmp_path / "t.gpx"
    ends = point(60, lon=179.999) + point(60, lon=-179.999)
    path.write_text(gpx(f"<trk><trkseg>{ends}</trkseg></trk>"))
    track = track_of(read_gpx(path, "t.gpx").tracks[0][1])
    assert profile_of(track, 0, 1).distance_m == pytest.approx(111.2, rel=0.01)


def test_one_degree_of_a_meridian_has_its_length():
    """On a sphere of the mean radius of the earth, 6,371,008.8 m (IUGG), it is 111,195.08 m."""
    assert distance_m((0, 0), (1, 0)) == pytest.approx(111_195.08, abs=0.005)
