"""The pages in a real browser: they render, print, fit a phone, and need no mouse."""

import io
import re
import subprocess

import pytest
from pypdf import PdfReader

from tests.service.screens import browser as chromium
from tests.service.screens.conftest import OUTCOME

pytestmark = pytest.mark.skipif(chromium.MISSING is not None, reason=str(chromium.MISSING))
PAGES = ("solved", "infeasible", "list", "comparison", "difference", "refusal", "sheets")
SCREENS = PAGES[:-1]


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    """One browser for all pages."""
    made = chromium.start(tmp_path_factory.mktemp("profile"))
    yield made
    made.driver.quit()


def expected_complaints(page: str, said: list[str]) -> list[str]:
    """What the console says, without the status of the page that is not there."""
    return [one for one in said if page != "refusal" or "status of 404" not in one]


@pytest.mark.parametrize("page", PAGES)
def test_a_page_shows_itself_without_complaints(browser, site, page):
    """The page has one main heading and words, and the console has no error and no refusal."""
    browser.complaints()
    browser.open(site.pages[page])
    assert browser.run("return document.querySelectorAll('h1').length") == 1
    assert len(browser.text()) > 100
    assert expected_complaints(page, browser.complaints()) == []


@pytest.mark.parametrize("phone", [False, True], ids=["wide", "phone"])
@pytest.mark.parametrize("page", PAGES)
def test_text_stands_out_and_nothing_is_wider_than_the_screen(browser, site, page, phone):
    """Every text has the contrast of AA; the page does not scroll sideways, at 360 px too."""
    browser.open(site.pages[page], phone=phone)
    seen, poor = browser.poor_contrasts()
    assert seen > 5
    assert poor == []
    assert browser.overflow_px() == 0


def test_pale_text_and_a_wide_page_would_be_seen(browser, site):
    """A planted grey sentence and a planted wide box are reported."""
    browser.open(site.pages["list"], phone=True)
    browser.run(
        "const main = document.querySelector('main'); const pale = document.createElement('p');"
        "pale.textContent = 'planted'; pale.style.color = '#999'; pale.style.width = '500px';"
        "main.append(pale);"
    )
    assert ["planted" in one for one in browser.poor_contrasts()[1]] == [True]
    assert browser.overflow_px() > 100
    # The policy has refused nothing: styles that a script sets are not in the markup.
    browser.complaints()


@pytest.mark.skipif(not chromium.AXE.exists(), reason="axe-core is not installed in .tools")
@pytest.mark.parametrize("page", PAGES)
def test_axe_finds_nothing(browser, site, page):
    """The rules of axe-core for people who see, hear or move otherwise are kept."""
    browser.open(site.pages[page])
    assert browser.axe_violations() == []
    browser.complaints()


@pytest.mark.parametrize("page", SCREENS)
def test_the_tabulator_reaches_everything(browser, site, page):
    """From the top, each link, button and wide table gets the focus once, and shows it."""
    browser.open(site.pages[page])
    reached = browser.tabbed_through()
    assert reached[0] == "Skip to the content"
    assert len(reached) == browser.focusable()


@pytest.mark.parametrize("page", SCREENS)
def test_a_page_prints(browser, site, page):
    """The PDF has the heading, and neither navigation nor buttons."""
    browser.open(site.pages[page])
    heading = browser.find("h1").text
    text = "\n".join(p.extract_text() for p in PdfReader(io.BytesIO(browser.printed())).pages)
    assert re.sub(r"\s+", " ", heading) in re.sub(r"\s+", " ", text)
    assert "Glossary" not in text
    assert "All sheets, A4" not in text


def test_the_phone_gets_pictures_of_its_own(browser, site):
    """Text in pictures is as large on a phone as on a wide screen, at least 12 px."""
    for phone in (False, True):
        browser.open(site.pages["solved"], phone=phone)
        sizes = browser.run(
            "return [...document.querySelectorAll('figure svg')].filter((one) => "
            "one.checkVisibility()).map((one) => 13 * one.getScreenCTM().a)"
        )
        assert len(sizes) > 1
        assert min(sizes) >= 12


def test_a_running_plan_shows_progress_and_is_finished_by_keyboard(browser, site):
    """Progress appears by itself; Enter on the first button ends the solve, and the plan shows."""
    browser.complaints()
    browser.open(site.ask(order="given", given=OUTCOME, waits=True))
    browser.await_text("100.0 %")
    browser.await_text("50.0 %")
    assert browser.run("return document.getElementById('peak-line').points.length") == 1
    browser.run("document.getElementById('finish').focus()")
    browser.press(chromium.Keys.ENTER)
    browser.await_text("Independent check")
    assert "One night out" in browser.text()
    assert browser.complaints() == []


def test_a_running_plan_is_cancelled(browser, site):
    """A click on the second button cancels the plan, and the page says so."""
    browser.open(site.ask(order="given", given=OUTCOME, waits=True))
    browser.await_text("100.0 %")
    browser.find("#cancel").click()
    browser.await_text("There is no outcome")
    assert browser.complaints() == []


def test_another_program_prints_the_same_address(site, tmp_path):
    """Chromium by itself, without a driver, prints the page of a plan to a PDF with its title."""
    target = tmp_path / "a.pdf"
    subprocess.run(
        [chromium.CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu",
         f"--user-data-dir={tmp_path}/profile", f"--print-to-pdf={target}", site.pages["solved"]],
        check=True, capture_output=True, timeout=60,
    )  # fmt: skip
    assert "A trip" in PdfReader(target).pages[0].extract_text()
