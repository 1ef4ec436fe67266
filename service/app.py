"""The web application, put together from settings and a translation; nothing else happens here.

The file is long because it names every router and every store.
"""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

from fastapi import Depends, FastAPI
from starlette.concurrency import run_in_threadpool
from starlette.types import ASGIApp

from service.access import require_key
from service.files.reader import FileReader
from service.http.cross_origin import CrossOrigin
from service.http.openapi import openapi_document
from service.http.problem_answers import answer_with_problems, methods_at
from service.http.query import known_query_only
from service.http.representations import Representations
from service.http.stream_room import StreamRoom
from service.http.watch import RequestCounts, Watched
from service.jobs.completions import Completions
from service.jobs.distributed import DistributedEngine
from service.jobs.embedded import EmbeddedEngine
from service.jobs.engine import Engine
from service.jobs.followers import Followers
from service.jobs.launcher import Launcher
from service.jobs.lookout import Lookout, Rescuer
from service.jobs.machine_share import MachineShare
from service.jobs.questions import Questions
from service.pages.pdf_printer import PdfPrinter
from service.process_parts import open_courier, open_desks, open_queue, plan_work, supervisor
from service.reports.kept_figures import KeptFigures
from service.routes import (
    calendars,
    comparisons,
    docs,
    facts,
    files,
    library,
    limits_that_bind,
    messages,
    metrics,
    more_tables,
    one_plan,
    operation,
    plan_actions,
    plan_checks,
    plan_differences,
    plan_events,
    plan_files,
    plan_pages,
    plan_papers,
    plan_tables,
    plan_views,
    plans,
    releases,
    replan_calendars,
    replans,
    reports,
    requirements,
    stored_library,
    stress_tests,
    webhooks,
)
from service.routes.screen_answers import problem_page
from service.settings import Settings
from service.storage.comparisons import ComparisonStore
from service.storage.database import open_database
from service.storage.events import PlanEvents
from service.storage.idempotency import BegunWork
from service.storage.keys import KeyStore
from service.storage.library import LibraryStore
from service.storage.lineage import Lineage
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.retention import RetentionStore
from service.storage.stress_tests import StressTestStore
from service.storage.trip_reports import TripReportStore
from service.storage.webhooks import WebhookOutbox
from service.storage.wishes import Wishes
from service.wiring import Translation, Wiring

ROUTERS = (
    plans.router,
    one_plan.router,
    plan_actions.router,
    plan_events.router,
    plan_views.router,
    limits_that_bind.router,
    calendars.router,
    plan_tables.router,
    more_tables.router,
    plan_papers.router,
    plan_differences.router,
    releases.router,
    webhooks.router,
    comparisons.router,
    plan_files.router,
    plan_pages.router,
    replans.router,
    replan_calendars.router,
    reports.router,
    messages.router,
    plan_checks.router,
    requirements.router,
    stress_tests.router,
    files.router,
    library.router,
    stored_library.router,
    metrics.router,
    facts.router,
    operation.router,
    docs.router,
)
GUARDED = tuple(r for r in ROUTERS if r not in (facts.router, operation.router, docs.router))
"""Routers whose requests need a key where the service asks for keys."""

ROUTES = [route for router in ROUTERS for route in router.routes]


class Application(FastAPI):
    """The web application with its own description of itself."""

    def __init__(self, settings: Settings, **options: Any) -> None:  # noqa: ANN401
        super().__init__(**options)
        self._origins = settings.known_origins()
        self.counts = RequestCounts()

    def build_middleware_stack(self) -> ASGIApp:
        """The routes behind what every answer has in common, failures included."""
        within = CrossOrigin(
            super().build_middleware_stack(),
            origins=self._origins,
            methods_at=lambda scope: methods_at(self, scope),
        )
        return Representations(Watched(within, self.counts))

    def openapi(self) -> dict[str, Any]:
        """The OpenAPI document, made once."""
        if self.openapi_schema is None:
            self.openapi_schema = openapi_document(self.routes)
        return self.openapi_schema


def create_app(settings: Settings, translation: Translation) -> Application:
    """An application that opens its database and begins to solve when it starts."""

    @asynccontextmanager
    async def lifespan(app: Application) -> AsyncIterator[None]:
        wiring = await run_in_threadpool(wire, settings, translation, app.counts)
        app.state.wiring = wiring
        wiring.desks.start()
        wiring.engine.start()
        if not settings.database_url:
            wiring.courier.start()
        await run_in_threadpool(wiring.lookout.start)
        yield
        wiring.completions.close()
        await wiring.followers.stop()
        await run_in_threadpool(wiring.engine.stop)
        await run_in_threadpool(wiring.courier.stop)
        await run_in_threadpool(wiring.file_reader.close)
        await run_in_threadpool(wiring.pdf_printer.close)
        await run_in_threadpool(wiring.lookout.stop)
        await run_in_threadpool(wiring.questions.close)
        await run_in_threadpool(wiring.desks.close)
        await run_in_threadpool(wiring.store.close)

    app = Application(
        settings,
        title="Haulwright",
        lifespan=lifespan,
        # The description and its pages are routes of ours, which refuse unknown parameters.
        openapi_url=None,
        # A redirect would repeat the Host header of the request, which anybody can write.
        redirect_slashes=False,
    )
    answer_with_problems(app, problem_page)
    for router in ROUTERS:
        guards = [Depends(require_key)] if router in GUARDED else []
        app.include_router(router, dependencies=[*guards, Depends(known_query_only)])
    app.state.routes = ROUTES
    docs.mount_assets(app)
    return app


def wire(settings: Settings, translation: Translation, counts: RequestCounts) -> Wiring:
    """Open the database and put together what the routes work with."""
    database = open_database(settings.database_address())
    completions, share = Completions(), MachineShare()
    queue = open_queue(database, settings)
    courier = open_courier(database, settings)
    wishes = Wishes(database)
    keys = KeyStore(database)
    engine: Engine = DistributedEngine()
    rescuer = None
    questions = supervisor(settings, Launcher(translation.question_job))
    if not settings.database_url:
        # One fork server for both, since both need the solver.
        launcher = Launcher(translation.solve_job, translation.question_job)
        questions = supervisor(settings, launcher, job=1)

        def on_finished(plan_id: str) -> None:
            completions.announce(plan_id)
            courier.wake()

        solves = supervisor(settings, launcher, share=share)
        work = plan_work(settings, solves, queue, wishes, on_finished=on_finished)
        engine = EmbeddedEngine(queue, work, workers=settings.solve_workers)
        rescuer = Rescuer(queue, lease_seconds=settings.lease_seconds)
    limit, has_shares = settings.queue_limit, settings.needs_keys()
    store = PlanStore(database, queue_limit=limit, has_shares=has_shares, enqueue=engine.enqueue)
    removal, grace_seconds = RetentionStore(database).removal, settings.solve_grace_seconds
    events = PlanEvents(database)
    return Wiring(
        settings=settings,
        translation=translation,
        store=store,
        begun=BegunWork(database),
        comparisons=ComparisonStore(database),
        figures=KeptFigures(),
        lineage=Lineage(database),
        releases=ReleaseStore(database),
        reports=TripReportStore(database),
        stress_tests=StressTestStore(database),
        library=LibraryStore(database),
        events=events,
        followers=Followers(events.since),
        stream_room=StreamRoom(streams=settings.open_streams(), share=settings.stream_share()),
        wishes=wishes,
        webhooks=WebhookOutbox(database),
        courier=courier,
        desks=open_desks(settings, translation, share),
        questions=Questions(questions),
        engine=engine,
        completions=completions,
        lookout=Lookout(store, wishes, completions, rescuer, clean=removal),
        keys=keys,
        file_reader=FileReader(at_once=settings.file_readers, grace_seconds=grace_seconds),
        pdf_printer=PdfPrinter(grace_seconds=grace_seconds),
        counts=counts,
    )
