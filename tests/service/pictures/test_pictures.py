"""Pictures: their findings, their text alternatives, and text that fits and does not collide."""

import re

import pytest
from defusedxml.ElementTree import fromstring

from service.pictures.calendars import calendars_picture
from service.pictures.chart import Series, axes, frame_for, named_lines
from service.pictures.energy import energy_picture
from service.pictures.loads import loads_picture
from service.pictures.profile import profile_picture
from service.pictures.stock import stock_picture
from service.pictures.svg import DASHES, MARKERS, TEXT_SIZE, Picture, line, pushed_apart, text_width

SVG = "{http://www.w3.org/2000/svg}"
WIDTHS = (340, 560, 700)
PEOPLE = ("guide-1", "guide-2", "client-with-a-long-name", "client-2", "client-3", "client-4")
ELEVATIONS = {"road": 1450.0, "camp-1": 2050.0, "camp-2": 2750.0}


def outcome(days: int = 20) -> dict:
    """A solved outcome with loads and stock that rise and fall."""
    trips = [
        {
            "day": day,
            "loads": [
                {"person_id": p, "load_fraction": 0.3 + 0.7 * ((day * (n + 3)) % 11) / 10}
                for n, p in enumerate(PEOPLE)
            ],
        }
        for day in range(1, days + 1)
    ]
    stock = [
        {
            "day": day,
            "place": "camp-1",
            "cook_groups": [
                {"cook_group": group, "nights_of_food": max(0.0, top - abs(day - 8))}
                for group, top in (("all", 6), ("guides", 5.9), ("clients", 5.8))
            ],
        }
        for day in range(days + 1)
    ]
    places = [["road", "camp-1"], *[["camp-1", "camp-2", "camp-1"]] * 5, ["camp-1", "camp-2"]]
    way = [*places, *[["camp-2"]] * (days - len(places))]
    peak = {"person_id": "guide-1", "load_fraction": 1.0, "day": 3, "from": "a", "to": "b"}
    return {
        "peak": {**peak, "binding": "pack"},
        "plan": {
            "days": [{"day": n, "places": {"team": p}} for n, p in enumerate(way, 1)],
            "trips": trips,
            "stock": stock,
        },
    }


def figures(days: int = 20) -> list[dict]:
    """Energy by day of two people."""
    need = [
        {"figure_id": "day_energy", "about": {"day": d, "person_id": p}, "value": 3000 + 100 * d}
        for d in range(1, days + 1)
        for p in ("a", "b")
    ]
    food = [
        {"figure_id": "ration_energy", "about": {"day": d}, "value": 4100}
        for d in range(1, days + 1)
    ]
    return [*need, *food, {"figure_id": "total_energy", "about": {}, "value": 1}]


def all_pictures(width: float) -> list[Picture]:
    """Every kind of picture at a width."""
    energy = energy_picture(figures(), width=width)
    assert energy is not None
    return [
        loads_picture(outcome(), width=width, names={"guide-1": "Lead"}),
        stock_picture(outcome(), "camp-1", width=width, name="Lower camp", reserve_nights=2),
        profile_picture(outcome(), ELEVATIONS, width=width),
        energy,
        calendars_picture(CURVE, width=width),
    ]


CURVE = [(14, 0.98, 0.98), (15, 0.95, 0.93), (16, 0.94, 0.93), (21, 0.761, 0.74)]
EVERY = [pytest.param(width, n, id=f"{width}-{n}") for width in WIDTHS for n in range(5)]


def boxes(root: object) -> list[tuple[str, float, float, float, float]]:
    """The words of a picture with the box that each takes at most: left, top, right, bottom."""
    found = []
    for text in root.iter(f"{SVG}text"):
        words, x, y = text.text or "", float(text.get("x")), float(text.get("y"))
        wide = text_width(words)
        left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
        found.append((words, left, y - 0.75 * TEXT_SIZE, left + wide, y + 0.2 * TEXT_SIZE))
    return found


@pytest.mark.parametrize(("width", "number"), EVERY)
def test_no_words_collide_or_leave_the_picture(width, number):
    """At each width no two texts overlap, and none goes over the edge."""
    picture = all_pictures(width)[number]
    found = boxes(fromstring(picture.svg()))
    assert len(found) > 5
    for index, (words, left, top, right, bottom) in enumerate(found):
        assert left >= 0, words
        assert right <= picture.width, words
        assert top >= 0, words
        assert bottom <= picture.height, words
        for other, l2, t2, r2, b2 in found[index + 1 :]:
            assert right <= l2 or r2 <= left or bottom <= t2 or b2 <= top, (words, other)


@pytest.mark.parametrize(("width", "number"), EVERY[:5])
def test_a_picture_has_a_text_alternative(width, number):
    """It is an image with a title and a finding, which its label names by ids of its own."""
    root = fromstring(all_pictures(width)[number].svg())
    assert root.get("role") == "img"
    title_id, finding_id = root.get("aria-labelledby").split()
    texts = {child.get("id"): child.text for child in root[:2]}
    assert texts[title_id]
    assert texts[finding_id].endswith(".")


@pytest.mark.parametrize(("width", "number"), EVERY[:5])
def test_a_picture_needs_no_style_and_no_colour(width, number):
    """There are presentation attributes only, greys only, and nothing from elsewhere."""
    svg = all_pictures(width)[number].svg()
    assert "style" not in svg
    assert "class=" not in svg
    colours = set(re.findall(r"#[0-9a-f]{3,6}", svg))
    assert all(len(set(colour[1:])) == 1 for colour in colours)
    assert re.findall(r"href|url\(|https?://(?!www\.w3\.org/2000/svg)", svg) == []


def test_the_finding_of_loads_names_the_peak():
    """Who, how much and when are said in a sentence, with the name of the person."""
    finding = loads_picture(outcome(), width=560, names={"guide-1": "Lead"}).finding
    assert finding == "Lead has the largest load, 100.0 % of the cap (pack), on day 3, from a to b."


def test_each_load_is_a_bar_of_its_height():
    """There is a bar for every person and day; a load at its cap is as high as the line."""
    root = fromstring(loads_picture(outcome(), width=560, names={}).svg())
    bars = [float(bar.get("height")) for bar in root.iter(f"{SVG}rect")]
    assert len(bars) == 20 * len(PEOPLE)
    assert max(bars) == 30


def test_the_finding_of_stock_names_its_most():
    """The night with the most food, and the reserve."""
    finding = stock_picture(outcome(), "camp-1", width=560, name="Camp", reserve_nights=2).finding
    assert finding == (
        "The food at Camp lasts longest after day 8: 6.0 nights. The reserve is for 2 nights."
    )
    nothing = stock_picture(outcome(), "camp-2", width=560, name="Camp", reserve_nights=0)
    assert nothing.finding == "There is never any food at Camp."


def test_the_finding_of_the_profile_names_the_highest_night():
    """The highest night and the largest gain, with their days."""
    finding = profile_picture(outcome(), ELEVATIONS, width=560).finding
    assert finding == (
        "The highest night is at 2750 m, first on day 7. The largest gain of a night is 700 m, "
        "on day 7."
    )


def test_the_finding_of_energy_adds_up():
    """Need less what is eaten, over all days: 2 x (20 x 3000 + 100 x 210) / 2 - 20 x 4100."""
    finding = energy_picture(figures(), width=560).finding
    assert finding.startswith("Over 20 days a person eats 1000 kcal more than needed")
    assert finding.endswith("Day 20 falls short most, by 900 kcal.")
    assert energy_picture([], width=560) is None


def test_the_finding_of_calendars_names_both_ends_and_the_gap():
    """The fewest and the most days with their peaks, and the largest gap, in points."""
    finding = calendars_picture(CURVE, width=560).finding
    assert finding == (
        "With 14 days the peak load is 98.0 % of a cap, with 21 days 76.1 %. No calendar within "
        "the rules is lower by more than 2.1 points."
    )
    one = calendars_picture(CURVE[:1], width=560)
    assert one.finding.startswith("With 14 days the peak load is 98.0 % of a cap. No calendar")
    assert one.svg().count("</title>") == 1


def test_lines_are_told_apart_without_colour():
    """Four dashes and four markers, each once."""
    assert len(set(DASHES)) == len(DASHES) == len(set(MARKERS)) == 4


@pytest.mark.parametrize(
    ("heights", "moved"),
    [([10, 50], [10, 50]), ([50, 50], [50, 65]), ([98, 99, 100], [70, 85, 100]), ([-5], [0])],
)
def test_labels_are_pushed_apart(heights, moved):
    """Labels keep their distance and stay within the frame."""
    assert pushed_apart(heights, gap=15, within=(0, 100)) == moved


def test_axes_have_round_values_and_hold_all_points():
    """A value at the top of the data is within the frame; the cap is a thick dashed line."""
    series = [Series("a", ((1.0, 0.0), (20.0, 7.3)))]
    frame = frame_for(series, width=560, height=200, most=9)
    assert frame.y_span == (0, 10)
    assert 0 <= frame.at((20, 7.3))[1] <= 200
    assert ">10<" in axes(frame, x_name="day", y_name="nights")
    limit = Series("cap", ((1.0, 9.0), (20.0, 9.0)))
    assert 'stroke-width="2.5"' in named_lines(frame, series, limit=limit)
    assert "stroke-dasharray" in line([(0, 0), (1, 1)], dash="7 3")
