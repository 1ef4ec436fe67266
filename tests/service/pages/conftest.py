"""A solved plan for the pages: the smallest request, solved once."""

import json

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.pages.facts import PlanFacts, Writer
from service.pages.render import RenderedPages, render_pages
from service.pages.sections import sections_of
from service.translation import TRANSLATION

PLAN_ID = "plan_" + "0" * 26
LIMITS = JobLimits(wall_seconds=50, memory_bytes=2**31)


@pytest.fixture(scope="session")
def solved() -> dict:
    """The outcome of the smallest request."""
    outcome = json.loads(solve_document(json.dumps(REQUEST).encode(), LIMITS, SILENT))
    assert outcome["outcome"] == "solved", outcome
    return outcome


REQUEST = {
    **SMALLEST_REQUEST,
    "title": 'Trip <b>& "co"</b>',
    "options": {"time_limit": "40 s"},
    "evacuations": [{"person": "third", "day": 4}],
}


@pytest.fixture(scope="session")
def facts(solved) -> PlanFacts:
    """What the pages know of it, in metric units."""
    return facts_of(solved, "metric")


def facts_of(outcome: dict, units: str, request: dict | None = None) -> PlanFacts:
    """The facts of an outcome."""
    asked = request or REQUEST
    needs = TRANSLATION.state_requirements(asked, ("energy", "food", "water", "waste"))
    figures = tuple(figure.model_dump() for figure in needs.figures)
    return PlanFacts(PLAN_ID, 3, "2027-05-01 12:00 UTC", outcome, asked, Writer(units), figures)


@pytest.fixture(scope="session")
def rendered(facts: PlanFacts) -> RenderedPages:
    """All pages for A4."""
    return render_pages(facts, sections_of(facts, paper="a4"), "a4")
