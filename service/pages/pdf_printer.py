"""The web process's side of printing PDF: one child for each, one at a time."""

from __future__ import annotations

import functools
from ctypes.util import find_library
from importlib.util import find_spec

from service.errors import ServiceProblem
from service.jobs.launcher import Launcher
from service.jobs.supervisor import Answered, NotStarted, Stopped, Supervisor
from service.jobs.turns import Turns

JOB = "service.pages.pdf_job:print_pdf"
_PRINTING_SECONDS = 240.0
"""A hundred sheets take about 25 s of processor time, on a busy machine several times that [s]."""
_MEMORY_BYTES = 1024 * 1024 * 1024
_PATIENCE_SECONDS = 20.0
_TOO_LONG = ("solver_timed_out", "solver_out_of_memory")


@functools.cache
def can_print() -> bool:
    """Whether the extra is installed, with the library of the system that lays text out."""
    return find_spec("weasyprint") is not None and find_library("pangoft2-1.0") is not None


class PdfPrinter:
    """Prints pages in children; the process that they are forked from starts with the first."""

    def __init__(self, *, grace_seconds: float) -> None:
        self._supervisor = Supervisor(
            Launcher(JOB), memory_bytes=_MEMORY_BYTES, grace_seconds=grace_seconds
        )
        self._turns = Turns(1, patience_seconds=_PATIENCE_SECONDS)

    def print_pdf(self, html: bytes) -> bytes:
        """The pages as PDF.

        Raises the problems not_acceptable where the extra is not installed, readers_busy,
        shutting_down, and file_too_costly where there are too many pages.
        """
        if not can_print():
            raise ServiceProblem(
                "not_acceptable",
                "This service prints no PDF. Ask for text/html, and print it with a browser.",
            )
        with self._turns.turn():
            end = self._supervisor.run(
                html,
                wall_seconds=_PRINTING_SECONDS,
                on_look=lambda _: False,
                must_stop=self._turns.is_stopping,
            )
        if isinstance(end, Answered):
            return end.outcome
        if isinstance(end, Stopped):
            raise self._turns.stopped()
        if isinstance(end, NotStarted):
            raise self._turns.busy()
        raise ServiceProblem("file_too_costly" if end.code in _TOO_LONG else "internal_error")

    def begin_stop(self) -> None:
        """End what is being printed, and print no more; does not wait."""
        self._turns.begin_stop()

    def close(self) -> None:
        """End what is printed, and the process that children are forked from, if any."""
        self.begin_stop()
        self._supervisor.close()
