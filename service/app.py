"""The web application, put together from settings and a translation; nothing else happens here."""

import json
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

from fastapi import FastAPI
from starlette.concurrency import run_in_threadpool

from service.files.reader import FileReader
from service.http.openapi import openapi_document
from service.http.problem_answers import answer_with_problems
from service.jobs.completions import Completions
from service.jobs.engine import EmbeddedEngine
from service.jobs.launcher import Launcher
from service.jobs.supervisor import Supervisor
from service.pages.pdf_printer import PdfPrinter
from service.routes import (
    docs,
    facts,
    files,
    library,
    operation,
    plan_checks,
    plan_files,
    plan_pages,
    plan_views,
    plans,
    requirements,
)
from service.settings import Settings
from service.storage.database import open_database
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.wiring import Translation, Wiring

ROUTERS = (
    plans.router,
    plan_views.router,
    plan_files.router,
    plan_pages.router,
    plan_checks.router,
    requirements.router,
    files.router,
    library.router,
    facts.router,
    operation.router,
    docs.router,
)
ROUTES = [route for router in ROUTERS for route in router.routes]
_RENEWALS_PER_LEASE = 3
_BYTES_PER_MIB = 1024 * 1024


class Application(FastAPI):
    """The web application with its own description of itself."""

    def openapi(self) -> dict[str, Any]:
        """The OpenAPI document, made once."""
        if self.openapi_schema is None:
            self.openapi_schema = openapi_document(self.routes)
        return self.openapi_schema


def create_app(settings: Settings, translation: Translation) -> Application:
    """An application that opens its database and begins to solve when it starts."""

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        wiring = await run_in_threadpool(wire, settings, translation)
        app.state.wiring = wiring
        wiring.engine.start()
        yield
        wiring.completions.close()
        await run_in_threadpool(wiring.engine.stop)
        await run_in_threadpool(wiring.file_reader.close)
        await run_in_threadpool(wiring.pdf_printer.close)
        await run_in_threadpool(wiring.store.close)

    app = Application(
        title="Haulwright",
        lifespan=lifespan,
        docs_url=None,
        redoc_url=None,
        # A redirect would repeat the Host header of the request, which anybody can write.
        redirect_slashes=False,
    )
    answer_with_problems(app)
    for router in ROUTERS:
        app.include_router(router)
    app.state.routes = ROUTES
    docs.mount_assets(app)
    return app


def wire(settings: Settings, translation: Translation) -> Wiring:
    """Open the database and put together what the routes work with."""
    database = open_database(settings.database)
    completions = Completions()
    engine = EmbeddedEngine(
        PlanQueue(database, lease_ms=round(settings.lease_seconds * 1000)),
        Supervisor(
            Launcher(translation.solve_job),
            memory_bytes=settings.solve_memory_mb * _BYTES_PER_MIB,
            grace_seconds=settings.solve_grace_seconds,
        ),
        workers=settings.solve_workers,
        renew_seconds=settings.lease_seconds / _RENEWALS_PER_LEASE,
        outcome_kind=lambda outcome: str(json.loads(outcome)["outcome"]),
        on_finished=completions.announce,
    )
    store = PlanStore(database, queue_limit=settings.queue_limit)
    reader = FileReader(at_once=settings.file_readers, grace_seconds=settings.solve_grace_seconds)
    printer = PdfPrinter(grace_seconds=settings.solve_grace_seconds)
    return Wiring(settings, translation, store, engine, completions, reader, printer)
