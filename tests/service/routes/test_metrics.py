"""The figures for monitoring: what waits, runs and ended, and how good it was."""

import re

import pytest
from sqlalchemy import update

from service.reports.metrics import gap_of, queue_lines
from service.routes import metrics
from service.storage.database import writing
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.queue_figures import QueueFigures, read_queue_figures
from service.storage.tables import PlanRow

LINE = re.compile(r'(# (HELP|TYPE) \w+ .+|\w+(\{\w+="[^"]*"(,\w+="[^"]*")*\})? -?[0-9.e+]+|)')


def figures_of(lines):
    """The value of each figure."""
    return dict(line.rsplit(" ", 1) for line in lines if not line.startswith("#"))


def test_the_page_is_in_the_text_format(client):
    """Every line is a comment of the format or a figure with a number; the type says so."""
    client.post("/v1/plans", json={}, headers={"Prefer": "wait=30"})
    answer = client.get("/metrics")
    assert answer.headers["Content-Type"] == metrics.TEXT
    assert [line for line in answer.text.split("\n") if not LINE.fullmatch(line)] == []
    told = figures_of(answer.text.splitlines())
    assert told['haulwright_plans_ended_lately{outcome="solved"}'] == "1"
    assert told['haulwright_http_answers_total{method="POST",status="201"}'] == "1"


def test_open_streams_of_events_are_counted(client):
    """As many as are open at this moment, and none when they have ended."""

    def opened():
        return figures_of(client.get("/metrics").text.splitlines())["haulwright_event_streams"]

    room = client.app.state.wiring.stream_room
    with room.place("a"), room.place("b"):
        assert opened() == "2"
    assert opened() == "0"


def test_figures_are_of_what_waits_runs_and_ended(database):
    """Two wait, one runs, one ended with a gap of a tenth; what ended long ago is not counted."""
    store, queue = PlanStore(database, queue_limit=99), PlanQueue(database, lease_ms=60_000)
    plans = [
        store.accept(tenant_id=t, reference=None, solve_seconds=1.0, document={}).plan_id
        for t in "aabbb"
    ]
    for plan_id in plans[:2]:
        claim = queue.claim(plan_id)
        queue.tell(claim, b'{"peak": 1.0, "bound": 0.9}')
        queue.finish(claim, state="done", outcome_kind="solved", outcome=b"{}")
    queue.claim(plans[2])
    with writing(database) as connection:
        hour_ms = 3_600_000
        row = update(PlanRow).where(PlanRow.plan_id == plans[0])
        connection.execute(row.values(finished_at_ms=PlanRow.finished_at_ms - hour_ms))
        row = update(PlanRow).where(PlanRow.plan_id == plans[3])
        connection.execute(row.values(created_at_ms=PlanRow.created_at_ms - hour_ms))
    found = read_queue_figures(database)
    assert (found.queued, found.running, found.ended) == (2, 1, {"solved": 1})
    assert found.oldest_seconds == pytest.approx(3600, abs=60)
    assert len(found.solve_seconds) == 1
    told = figures_of(queue_lines(found))
    assert float(told["haulwright_gap_mean"]) == pytest.approx(0.1)


def test_stress_tests_have_figures_of_their_own(database):
    """One plan ended, and of the tests one waits, one runs, one ended: no figure mixes them."""
    store, queue = PlanStore(database, queue_limit=99), PlanQueue(database, lease_ms=60_000)
    asked = {"tenant_id": "a", "reference": None, "solve_seconds": 1.0, "document": {}}
    plan_id = store.accept(**asked).plan_id
    tests = [store.accept(**asked, kind="stress", tested_plan_id=plan_id).plan_id for _ in range(3)]
    for name, told, kind in (
        (plan_id, b'{"peak": 1.0, "bound": 0.9}', "solved"),
        (tests[0], b'{"settled": 7, "states": 12}', "stress_tested"),
    ):
        claim = queue.claim(name)
        queue.tell(claim, told)
        queue.finish(claim, state="done", outcome_kind=kind, outcome=b"{}")
    queue.claim(tests[1])
    with writing(database) as connection:
        ago_ms = 600_000
        row = update(PlanRow).where(PlanRow.plan_id == tests[0])
        connection.execute(row.values(started_at_ms=PlanRow.finished_at_ms - ago_ms))
        row = update(PlanRow).where(PlanRow.plan_id == tests[2])
        connection.execute(row.values(created_at_ms=PlanRow.created_at_ms - ago_ms))
    found = read_queue_figures(database)
    told = figures_of(queue_lines(found))
    assert [told[f"haulwright_plans_{state}"] for state in ("queued", "running")] == ["0", "0"]
    assert told["haulwright_stress_tests_queued"] == "1"
    assert told["haulwright_stress_tests_running"] == "1"
    ended = {name: value for name, value in told.items() if "ended_lately" in name}
    assert ended == {
        'haulwright_plans_ended_lately{outcome="solved"}': "1",
        'haulwright_stress_tests_ended_lately{outcome="stress_tested"}': "1",
    }
    assert float(told["haulwright_solve_seconds_max"]) < 600
    assert float(told["haulwright_gap_mean"]) == pytest.approx(0.1)
    assert float(told["haulwright_queue_age_seconds"]) == pytest.approx(600, abs=60)


def test_nothing_at_all_is_told_as_nothing():
    """A service without plans has figures, all of them zero."""
    told = figures_of(queue_lines(QueueFigures(0, 0, 0.0, {}, (), ())))
    assert set(told.values()) == {"0"}
    assert len(told) == 8


@pytest.mark.parametrize(
    ("progress", "gap"),
    [
        (b'{"peak": 2.0, "bound": 1.0}', 0.5),
        (b'{"peak": null, "bound": 1.0}', None),
        (b'{"peak": 0.0, "bound": 0.0}', None),
        (b'{"peak": 1.0, "bound": 1.5}', 0.0),
        (b'{"peak": 2, "bound": 1}', 0.5),
        (b'{"settled": 7, "states": 12}', None),
        (b'{"peak": 1.0}', None),
        (b'{"peak": "1", "bound": 0.5}', None),
        (b'{"peak": true, "bound": 0.5}', None),
        (b'{"peak": NaN, "bound": 0.5}', None),
        (b'{"peak": 1.0, "bound": 1' + b"0" * 400 + b"}", None),
        (b"[1.0, 0.5]", None),
        (b"[" * 100_000, None),
        (b'{"peak": 1.0, "bou', None),
        (b"\xff", None),
        (b"", None),
    ],
)
def test_a_gap_is_a_share_of_the_peak(progress, gap):
    """Without a plan, a peak of nothing or what cannot be read has none; it is never below 0."""
    assert gap_of(progress) == gap
