"""Pages for people: one frame for all of them."""

from service.reports.page import page


def test_a_title_is_escaped_and_a_body_is_not():
    """The title is text, the body is HTML already; both stand in the page once."""
    shown = page("camps & <caches>", "<p>one</p>")
    assert "<title>Haulwright: camps &amp; &lt;caches&gt;</title>" in shown
    assert shown.count("<p>one</p>") == 1


def test_a_page_is_whole():
    """A page begins as a document and ends as one, and names the icon."""
    shown = page("x", "")
    assert shown.startswith("<!DOCTYPE html>")
    assert shown.endswith("</html>\n")
    assert '<link rel="icon" href="/icon.svg">' in shown
