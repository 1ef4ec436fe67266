"""The proofs of the API in their shortest form; `run.sh api` has the longer ones."""

import time
from pathlib import Path

import pytest

from tests.reliability.api_trials import boundaries, hostile, same_key, tenants, why
from tests.reliability.peak_memory import PeakMemory

pytestmark = pytest.mark.slow


def test_a_hundred_requests_with_one_key_make_one_plan(tmp_path: Path):
    """All of them are answered with the same name, and one plan is stored."""
    report = same_key(tmp_path, callers=100)
    assert report.wrong == [], report.tried


def test_bodies_at_the_limits_cost_no_more_than_they_may(tmp_path: Path):
    """A share of the lists and pairs, each answered or refused within two seconds and 300 MB."""
    report = hostile(tmp_path, share=120)
    assert report.wrong == [], report.tried


def test_memory_that_is_given_back_is_seen():
    """What was there for half a second counts, though it is gone at the end."""
    begun = time.monotonic()
    with PeakMemory(lambda: 500.0 if 0.1 < time.monotonic() - begun < 0.6 else 100.0) as peak:
        time.sleep(1)
    assert peak.mb == 500.0


def test_no_boundary_is_an_error_of_ours_and_a_planted_one_is_seen(tmp_path: Path):
    """Some values at boundaries, and some of what is taken solved; then a desk that breaks."""
    (tmp_path / "sound").mkdir()
    (tmp_path / "planted").mkdir()
    report = boundaries(tmp_path / "sound", most=60, solved=1)
    assert report.wrong == [], report.tried
    assert boundaries(tmp_path / "planted", planted="breaks_at_a_value", most=60, solved=0).wrong


def test_the_trial_of_tenants_knows_an_id_of_every_kind(tmp_path: Path):
    """An id of the first tenant is asked for at each address; a service that mixes them is seen."""
    (tmp_path / "sound").mkdir()
    (tmp_path / "planted").mkdir()
    report = tenants(tmp_path / "sound")
    assert report.wrong == [], report.tried
    assert tenants(tmp_path / "planted", planted="mixes_tenants").wrong


def test_a_failed_plan_is_told_with_its_code_and_words():
    """The code of its outcome or of the refusal, and when it was begun and ended, where known."""
    outcome = {"code": "solver_timed_out", "detail": "It was ended."}
    assert why({"plan_id": "plan_1", "outcome": outcome, "attempt": 1, "finished_at": None}) == (
        ", solver_timed_out, It was ended., plan_1, 1"
    )
    assert why({"code": "too_busy", "detail": "Come again."}) == ", too_busy, Come again."
