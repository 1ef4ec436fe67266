"""PDF of the pages, where the extra is installed; elsewhere the service says so."""

import logging
import re
import subprocess

import pytest

from service.errors import ServiceProblem
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.supervisor import NotStarted, Supervisor
from service.pages import pdf_printer
from service.pages.pdf_job import print_pdf
from service.pages.pdf_printer import PdfPrinter, can_print
from service.pages.render import render_pages
from service.pages.sections import sections_of
from tests.service.pages.test_printed_pages import PDF_TOOLS

needs_the_extra = pytest.mark.skipif(not can_print(), reason="the extra pdf is not installed")
LIMITS = JobLimits(wall_seconds=60, memory_bytes=2**30)


@pytest.fixture
def html(facts) -> bytes:
    """A few sheets for A5."""
    sheets = frozenset({"cover", "pictures", "camps"})
    return render_pages(facts, sections_of(facts, paper="a5", only=sheets), "a5").html


def test_a_service_without_the_extra_says_so(monkeypatch):
    """The problem is that PDF cannot be had here, with what to ask for instead."""
    monkeypatch.setattr(pdf_printer, "can_print", lambda: False)
    printer = PdfPrinter(grace_seconds=1)
    with pytest.raises(ServiceProblem) as caught:
        printer.print_pdf(b"<p>a")
    printer.close()
    assert caught.value.code == "not_acceptable"
    assert "text/html" in caught.value.detail


@pytest.mark.slow
@needs_the_extra
def test_a_child_prints_the_same_bytes_each_time(html):
    """The printer's child gives PDF, and the job by itself gives the same."""
    printer = PdfPrinter(grace_seconds=2)
    try:
        written = printer.print_pdf(html)
    finally:
        printer.close()
    assert written.startswith(b"%PDF")
    assert written == print_pdf(html, LIMITS, SILENT)


@pytest.mark.slow
@needs_the_extra
@pytest.mark.skipif(PDF_TOOLS is None, reason="poppler-utils is not installed")
def test_the_pdf_has_its_pages(html, tmp_path, caplog):
    """Each page has its number, nothing leaves the margins, and there are no warnings."""
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        (tmp_path / "a.pdf").write_bytes(print_pdf(html, LIMITS, SILENT))
    assert caplog.records == []
    command = ["pdftotext", tmp_path / "a.pdf", "-"]
    text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    pages = text.split("\f")[:-1]
    assert len(pages) > 3
    assert all(f"page {n} of {len(pages)}" in page for n, page in enumerate(pages, 1))
    boxes = subprocess.run([*command[:1], "-bbox", *command[1:]], check=True, capture_output=True)
    words = re.findall(rb'<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.-]+)"', boxes.stdout)
    assert min(float(left) for left, _ in words) >= 11 / 25.4 * 72 - 1
    assert max(float(right) for _, right in words) <= 420 - 11 / 25.4 * 72 + 1


@needs_the_extra
def test_nothing_is_fetched_while_it_prints(tmp_path):
    """A picture from a file is not read: with and without it the bytes are the same."""
    secret = tmp_path / "secret.svg"
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">'
    secret.write_text(f'{head}<rect width="9" height="9"/></svg>', encoding="utf-8")
    page = f'<html lang="en"><title>a</title><p>a<img alt="" src="{secret.as_uri()}">'
    with_file = print_pdf(page.encode(), LIMITS, SILENT)
    secret.unlink()
    assert print_pdf(page.encode(), LIMITS, SILENT) == with_file


def test_a_printer_that_cannot_start_asks_to_come_again(monkeypatch):
    """Where no child could be started the answer is 503 with Retry-After, not a fault."""
    monkeypatch.setattr(pdf_printer, "can_print", lambda: True)
    monkeypatch.setattr(Supervisor, "run", lambda *_, **__: NotStarted())
    with pytest.raises(ServiceProblem) as refused:
        PdfPrinter(grace_seconds=1).print_pdf(b"<p>a")
    assert (refused.value.code, refused.value.headers["Retry-After"]) == ("readers_busy", "20")
