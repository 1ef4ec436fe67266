"""What the headers Accept and Prefer ask for."""

import pytest

from service.errors import ServiceProblem
from service.http.negotiation import (
    CSV,
    JSON,
    chosen_media_type,
    preferred_wait_seconds,
    prefers_page,
)

OFFERS = (JSON, CSV)


@pytest.mark.parametrize(
    ("accept", "chosen"),
    [
        (None, JSON),
        ("", JSON),
        ("*/*", JSON),
        ("text/csv", CSV),
        ("text/*", CSV),
        ("TEXT/CSV", CSV),
        ("text/csv;q=0.5, application/json;q=0.4", CSV),
        ("text/csv;q=0.5, */*;q=0.8", JSON),
        ("application/json;q=0, */*", CSV),
        ("text/html, text/csv;q=0.1", CSV),
        ("text/csv; charset=utf-8", CSV),
    ],
)
def test_the_best_offer_is_chosen(accept, chosen):
    """The offer with the highest weight wins, the more specific range settling its weight."""
    assert chosen_media_type(accept, OFFERS) == chosen


@pytest.mark.parametrize("accept", ["text/html", "application/json;q=0", "text/csv;q=x", ";;,,"])
def test_nothing_acceptable_is_refused(accept):
    """A header that covers no offer is the problem not_acceptable."""
    with pytest.raises(ServiceProblem) as refusal:
        chosen_media_type(accept, OFFERS)
    assert refusal.value.code == "not_acceptable"


@pytest.mark.parametrize(
    ("prefer", "seconds"),
    [
        ([], None),
        (["wait=10"], 10),
        (["respond-async, wait=10"], 10),
        (["respond-async", "Wait = 10"], 10),
        (['wait="10"'], 10),
        (["wait=10; foo=bar"], 10),
        (["wait=5, wait=7"], 5),
        (["wait=60"], 60),
        (["wait=61"], 60),
        (["wait=999999999"], 60),
        (["wait=99999999999999999999"], None),
        (["wait=-1"], None),
        (["wait=1.5"], None),
        (["wait"], None),
        (["wait=\u0661"], None),
    ],
)
def test_a_wait_is_read_and_cut_to_the_limit(prefer, seconds):
    """RFC 7240: the first wait counts, names ignore case, what cannot be read is ignored."""
    assert preferred_wait_seconds(prefer, limit_seconds=60) == seconds


@pytest.mark.parametrize(
    ("accept", "page"),
    [
        ("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", True),
        ("text/html, application/json;q=0.9", True),
        ("text/html", False),
        ("*/*", False),
        ("application/json, text/html;q=0.5", False),
        ("", False),
    ],
)
def test_browsers_prefer_a_page(accept, page):
    """Only who takes JSON too, and likes HTML better, gets a problem as a page."""
    assert prefers_page([accept]) is page
