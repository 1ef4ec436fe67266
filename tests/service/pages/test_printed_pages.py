"""The pages in a real browser: printed on paper, and on a phone."""

import re
import shutil
import subprocess
from html import escape
from pathlib import Path

import pytest

from service.pages.render import render_pages
from service.pages.sections import sections_of
from tests.service.pages.conftest import PLAN_ID

CHROMIUM = shutil.which("chromium")
PDF_TOOLS = shutil.which("pdftotext")
needs_chromium = pytest.mark.skipif(
    CHROMIUM is None or PDF_TOOLS is None, reason="chromium or poppler-utils is not installed"
)


def printed(folder: Path, html: bytes) -> Path:
    """The pages as Chromium prints them."""
    source, target = folder / "pages.html", folder / "pages.pdf"
    source.write_bytes(html)
    subprocess.run(
        [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
         f"--user-data-dir={folder}/profile", f"--print-to-pdf={target}", source.as_uri()],
        check=True, capture_output=True, timeout=60,
    )  # fmt: skip
    return target


@pytest.mark.slow
@needs_chromium
@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("a5", (420, 595))])
def test_the_pages_print(facts, tmp_path, paper, size):
    """Each page has its number of how many and its plan; nothing is beyond the margins."""
    sheets = frozenset({"cover", "days", "camps", "caches"})
    html = render_pages(facts, sections_of(facts, paper=paper, only=sheets), paper).html
    pdf = printed(tmp_path, html)
    text = subprocess.run(["pdftotext", pdf, "-"], check=True, capture_output=True, text=True)
    pages = text.stdout.split("\f")[:-1]
    assert len(pages) > 5
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert f"{PLAN_ID} v3, 2027-05-01 12:00 UTC" in page
    boxes = subprocess.run(["pdftotext", "-bbox", pdf, "-"], check=True, capture_output=True)
    words = re.findall(rb'<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.-]+)"', boxes.stdout)
    margin_pt = 11 / 25.4 * 72
    assert min(float(left) for left, _ in words) >= margin_pt - 1
    assert max(float(right) for _, right in words) <= size[0] - margin_pt + 1


@pytest.mark.slow
@needs_chromium
def test_the_pages_fit_a_phone(rendered, tmp_path):
    """At 390 px nothing makes the page wider than the screen; wide tables scroll by themselves."""
    frame = tmp_path / "phone.html"
    inside = escape(rendered.html.decode(), quote=True)
    frame.write_text(
        f'<iframe width="390" height="800" srcdoc="{inside}"></iframe><script>'
        "onload = () => { const page = document.querySelector('iframe').contentDocument;"
        "document.title = 'wide ' + page.documentElement.scrollWidth; }</script>",
        encoding="utf-8",
    )
    dom = subprocess.run(
        [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu",
         f"--user-data-dir={tmp_path}/profile", "--dump-dom", frame.as_uri()],
        check=True, capture_output=True, text=True, timeout=60,
    ).stdout  # fmt: skip
    assert int(re.search(r"<title>wide (\d+)</title>", dom)[1]) <= 390
