"""What the routes work with, put together once at start and found on the application."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated, Any, cast

from fastapi import Depends, Request

from api_schema.plan_check import PlanCheckAnswer
from api_schema.requirements_answer import RequirementsAnswer
from service.files.reader import FileReader
from service.http.stream_room import StreamRoom
from service.http.watch import RequestCounts
from service.jobs.completions import Completions
from service.jobs.desk_job import PlanOrder
from service.jobs.desks import Desks
from service.jobs.engine import Engine
from service.jobs.followers import Followers
from service.jobs.lookout import Lookout
from service.jobs.questions import Questions
from service.pages.pdf_printer import PdfPrinter
from service.reports.kept_figures import KeptFigures
from service.settings import Settings
from service.storage.comparisons import ComparisonStore
from service.storage.events import PlanEvents
from service.storage.idempotency import BegunWork
from service.storage.keys import KeyStore
from service.storage.library import LibraryStore
from service.storage.lineage import Lineage
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.stress_tests import StressTestStore
from service.storage.trip_reports import TripReportStore
from service.storage.webhooks import WebhookOutbox
from service.storage.wishes import Wishes
from service.webhooks.courier import Courier

DEFAULT_TENANT = "default"
"""The one tenant of a service that knows no keys."""


@dataclass(frozen=True, slots=True)
class Translation:
    """The ways between wire and solver that routes use, and the job that a child runs.

    `read_plan_request` reads a request, `judge_plan` gives the verdict on a request and a plan,
    `state_requirements` what a request needs, in all parts or in those named, `order_replan` the
    document of a re-plan from what was followed and what was counted; each of them raises
    RequestFaults on a document that is not in order.
    `solve_job`, `desk_job` and `question_job` are the dotted paths, "module:function", of jobs (see
    jobs.child_process); without the second, questions are answered in the web process.
    """

    read_plan_request: Callable[[dict[str, object]], PlanOrder]
    judge_plan: Callable[[dict[str, object]], PlanCheckAnswer]
    state_requirements: Callable[[dict[str, object], tuple[str, ...] | None], RequirementsAnswer]
    order_replan: Callable[[dict[str, Any], dict[str, Any]], tuple[PlanOrder, dict[str, Any]]]
    solve_job: str
    desk_job: str | None = None
    question_job: str = "service.jobs.question_child:answer_question"


@dataclass(frozen=True, slots=True)
class Wiring:
    """Everything that a route may need."""

    settings: Settings
    translation: Translation
    store: PlanStore
    begun: BegunWork
    comparisons: ComparisonStore
    lineage: Lineage
    releases: ReleaseStore
    reports: TripReportStore
    stress_tests: StressTestStore
    library: LibraryStore
    events: PlanEvents
    wishes: Wishes
    webhooks: WebhookOutbox
    courier: Courier
    desks: Desks
    questions: Questions
    engine: Engine
    completions: Completions
    followers: Followers
    stream_room: StreamRoom
    lookout: Lookout
    keys: KeyStore
    file_reader: FileReader
    pdf_printer: PdfPrinter
    counts: RequestCounts
    figures: KeptFigures
    tenant_id: str = DEFAULT_TENANT
    """Whose plans a request is about."""
    key_id: str | None = None
    """The key that the request came with."""
    may_plan: bool = True
    """Whether that key may change plans, also where the request itself only reads."""


async def _wiring(request: Request) -> Wiring:
    # Of what is not async, each call would cost a change of threads.
    wiring = cast(Wiring, request.app.state.wiring)
    tenant_id = getattr(request.state, "tenant_id", DEFAULT_TENANT)
    key_id = getattr(request.state, "key_id", None)
    if tenant_id == DEFAULT_TENANT and key_id is None:
        return wiring
    may_plan = getattr(request.state, "may_plan", True)
    return replace(wiring, tenant_id=tenant_id, key_id=key_id, may_plan=may_plan)


Wired = Annotated[Wiring, Depends(_wiring, use_cache=False)]
