"""What the routes work with, put together once at start and found on the application."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Protocol, cast

from fastapi import Depends, Request

from api_schema.plan_check import PlanCheckAnswer
from api_schema.requirements_answer import RequirementsAnswer
from service.files.reader import FileReader
from service.jobs.completions import Completions
from service.jobs.engine import EmbeddedEngine
from service.pages.pdf_printer import PdfPrinter
from service.settings import Settings
from service.storage.plans import PlanStore

DEFAULT_TENANT = "default"
"""The one tenant of a service that knows no keys."""


class PlanOrder(Protocol):
    """What the routes need to know of a request in order."""

    @property
    def reference(self) -> str | None:
        """The caller's own reference."""

    @property
    def solve_seconds(self) -> float | None:
        """The time that its solve may take, None where the request does not say [s]."""


@dataclass(frozen=True, slots=True)
class Translation:
    """The ways between wire and solver that routes use, and the job that a child runs.

    `read_plan_request` reads a request, `judge_plan` gives the verdict on a request and a plan,
    `state_requirements` what a request needs, in all parts or in those named; each of them
    raises RequestFaults on a document that is not in order.
    `solve_job` is the dotted path, "module:function", of a job (see jobs.child_process).
    """

    read_plan_request: Callable[[dict[str, object]], PlanOrder]
    judge_plan: Callable[[dict[str, object]], PlanCheckAnswer]
    state_requirements: Callable[[dict[str, object], tuple[str, ...] | None], RequirementsAnswer]
    solve_job: str


@dataclass(frozen=True, slots=True)
class Wiring:
    """Everything that a route may need."""

    settings: Settings
    translation: Translation
    store: PlanStore
    engine: EmbeddedEngine
    completions: Completions
    file_reader: FileReader
    pdf_printer: PdfPrinter


def _wiring(request: Request) -> Wiring:
    return cast(Wiring, request.app.state.wiring)


Wired = Annotated[Wiring, Depends(_wiring)]
