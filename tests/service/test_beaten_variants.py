"""Who has beaten variants of a comparison cancelled: a key that may plan, none that only reads."""

import shutil

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from api_schema.figures_answer import PlanFiguresAnswer
from service.app import create_app
from service.jobs.embedded import EmbeddedEngine
from service.settings import Settings
from service.storage.leases import PlanQueue
from service.translation import TRANSLATION

ASKED = {
    "base": SMALLEST_REQUEST,
    "people": [{"person_id": "fourth", "pack_cap": "24 kg"}],
    "variants": [{"name": "four", "edits": [{"edit": "add", "person_id": "fourth"}]}],
    "choose": {"goal": "least", "figure": "people", "cancel_beaten": True},
}
FIGURES = dict.fromkeys(PlanFiguresAnswer.model_fields) | {"outcome": "solved", "people": 3}


@pytest.fixture
def guarded(tmp_path, empty_file, monkeypatch):
    """A service that asks for keys and solves nothing."""
    shutil.copy(empty_file, tmp_path / "plans.sqlite3")
    monkeypatch.setattr(EmbeddedEngine, "_work_once", lambda _engine: False)
    settings = Settings(database=tmp_path / "plans.sqlite3", keys="required")
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        yield caller


@pytest.fixture
def key_for(guarded):
    """Makes the header of a key with some scopes."""

    def make(*scopes):
        key = guarded.app.state.wiring.keys.make(tenant_id="a", scopes=scopes)
        return {"Authorization": f"Bearer {key}"}

    return make


@pytest.fixture
def comparison(guarded, key_for):
    """The address of a comparison whose base is solved, by which its variant is beaten."""
    answer = guarded.post("/v1/comparisons", json=ASKED, headers=key_for("plan"))
    assert answer.status_code == 202, answer.text
    assert [row["state"] for row in answer.json()["rows"]] == ["queued", "queued"]
    base = answer.json()["rows"][0]["plan_id"]
    wiring = guarded.app.state.wiring
    queue = PlanQueue(wiring.store._engine, lease_ms=60_000)
    queue.finish(queue.claim(base), state="done", outcome_kind="solved", outcome=b"{}")
    wiring.figures.of(base, lambda: PlanFiguresAnswer(**FIGURES))
    return answer.headers["Location"]


def _states(guarded, comparison):
    """The states of the plans as they are stored."""
    rows = guarded.app.state.wiring.comparisons.read(
        tenant_id="a", comparison_id=comparison.rpartition("/")[2]
    ).rows
    store = guarded.app.state.wiring.store
    return [store.read(tenant_id="a", plan_id=row.plan_id).summary.state for row in rows]


def test_a_key_that_only_reads_cancels_nothing(guarded, key_for, comparison, caplog):
    """However it reads, the beaten variant still waits; the choice is named all the same."""
    reader = key_for("read")
    with caplog.at_level("INFO", logger="service"):
        told = guarded.get(comparison, headers=reader).json()
        for end, accept in (("", "text/csv"), ("", "text/html"), ("/pages", "text/html")):
            address = f"{comparison}{end}"
            answer = guarded.get(address, headers=reader | {"Accept": accept})
            assert answer.status_code == 200, answer.text
        assert guarded.head(comparison, headers=reader).status_code == 200
    assert [row["state"] for row in told["rows"]] == ["done", "queued"]
    assert (told["done"], told["chosen"]["name"]) == (False, "base")
    assert _states(guarded, comparison) == ["done", "queued"]
    assert "audit" not in caplog.text


@pytest.mark.parametrize("end", ["", "/pages"])
def test_a_key_that_may_plan_has_beaten_variants_cancelled(
    guarded, key_for, comparison, caplog, end
):
    """Whoever reads with it cancels them, once, and the log names the key."""
    planner = key_for("read", "plan")
    with caplog.at_level("INFO", logger="service"):
        for _ in range(2):
            assert guarded.get(comparison + end, headers=planner).status_code == 200
    told = guarded.get(comparison, headers=key_for("read")).json()
    assert [row["state"] for row in told["rows"]] == ["done", "cancelled"]
    assert told["done"]
    trail = [r.getMessage() for r in caplog.records if r.getMessage().startswith("audit: ")]
    key_id = planner["Authorization"].split("_")[1]
    plan_id = told["rows"][1]["plan_id"]
    assert trail == [f"audit: key {key_id} of tenant a: {plan_id} cancelled, a beaten variant"]
