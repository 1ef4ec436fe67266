"""The job of a child that prints pages: HTML in, PDF out, by WeasyPrint where it is installed."""

from __future__ import annotations

from service.jobs.child_process import JobLimits, Talk


def print_pdf(html: bytes, _limits: JobLimits, _talk: Talk) -> bytes:
    """The pages as PDF, tagged; nothing is fetched but what stands in the file itself."""
    # Imported here, because it is an extra.
    from weasyprint import HTML  # noqa: PLC0415
    from weasyprint.urls import URLFetcher  # noqa: PLC0415

    fetcher = URLFetcher(allowed_protocols=["data"])
    written = HTML(string=html.decode(), url_fetcher=fetcher).write_pdf(pdf_variant="pdf/ua-1")
    return bytes(written)
