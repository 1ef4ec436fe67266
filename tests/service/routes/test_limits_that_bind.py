"""The route that says what binds a plan."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

from service.routes.limits_that_bind import router


class Stand:
    """Answers every question alike, and notes what was asked."""

    def __init__(self) -> None:
        self.asked: list[tuple[dict[str, Any], float]] = []

    def ask(self, document: dict[str, Any], *, seconds: float) -> bytes:
        """Note the question."""
        self.asked.append((document, seconds))
        return b'{"plan_id": "x"}'

    def close(self) -> None:
        """Nothing to do."""


def test_a_plan_goes_to_the_child_with_its_request_and_its_bound(client, monkeypatch):
    """What is asked is the stored request, the plan and the bound, with the time asked for."""
    stand = Stand()
    app = client.app
    app.state.wiring = replace(app.state.wiring, questions=stand)
    outcome = {"outcome": "solved", "plan": {"trips": []}, "bound": 0.9}
    path = "service.routes.limits_that_bind"
    monkeypatch.setattr(f"{path}.find_solved_outcome", lambda *_: outcome)
    monkeypatch.setattr(f"{path}.find_request", lambda *_: {"title": "t"})
    answer = client.get("/v1/plans/plan_x/limits-that-bind?seconds=5")
    assert (answer.status_code, answer.content) == (200, b'{"plan_id": "x"}')
    ((asked, seconds),) = stand.asked
    assert asked["question"] == "limits_that_bind"
    assert (asked["request"], asked["plan"], asked["bound"]) == ({"title": "t"}, {"trips": []}, 0.9)
    assert seconds == 5.0
    assert json.dumps(asked)


def test_an_unknown_plan_and_too_much_time_are_refused(client):
    """404 for a plan that is not there, 422 for more seconds than anybody gets."""
    assert [route.path for route in router.routes] == ["/v1/plans/{plan_id}/limits-that-bind"]
    unknown = "plan_01m894y1x3y07966fb6kk0wj7j"
    assert client.get(f"/v1/plans/{unknown}/limits-that-bind").status_code == 404
    assert client.get(f"/v1/plans/{unknown}/limits-that-bind?seconds=999").status_code == 422
