"""A problem as a page, for somebody who came with a browser."""

from __future__ import annotations

from api_schema.problem_details import ProblemDetails
from service.screens.frame import Screen, screen

NO_KEY_IN_A_BROWSER = (
    "This service asks for keys, and a browser cannot send one. Use curl with the header "
    "Authorization, or open the pages through a proxy that adds the header for you. A service on "
    "your own machine needs no key."
)


def refusal_screen(problem: ProblemDetails) -> Screen:
    """What went wrong, and what to do."""
    advice = NO_KEY_IN_A_BROWSER if problem.code == "key_needed" else problem.detail or ""
    faults = [
        f"{fault.parameter or fault.pointer}: {fault.detail}" for fault in problem.errors or ()
    ]
    return screen(
        "refusal.html.j2",
        title=problem.title,
        status=problem.status,
        code=problem.code,
        advice=advice,
        faults=faults,
    )
