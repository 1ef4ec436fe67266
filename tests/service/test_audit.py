"""What is done with keys and stored plans at the command line leaves a line in the audit trail."""

import json

import pytest

from service import keys, retention
from service.audit import note_change, start_trail
from service.storage.database import open_database
from service.storage.plans import PlanStore


@pytest.fixture
def database(tmp_path, monkeypatch):
    """A database that the programs find, with one plan of a booking."""
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(tmp_path / "p.sqlite3"))
    engine = open_database(tmp_path / "p.sqlite3")
    PlanStore(engine, queue_limit=3).accept(
        tenant_id="agency-1", reference="somebody by name", solve_seconds=1.0, document={}
    )
    yield engine
    engine.dispose()


def test_a_key_that_is_made_and_revoked_is_noted_without_its_secret(database, capsys):
    """Both lines name the key, the first one its tenant and scopes."""
    assert keys.main(["make", "agency-1", "--scopes", "plan", "read"]) == 0
    shown = capsys.readouterr()
    key_id, secret = shown.out.strip().split("_")[1:]
    assert f"audit: key {key_id} of tenant agency-1 made for read and plan" in shown.err
    assert secret not in shown.err
    keys.main(["revoke", key_id])
    assert f"audit: key {key_id} revoked" in capsys.readouterr().err
    keys.main(["revoke", key_id])
    assert "audit:" not in capsys.readouterr().err


def test_what_is_erased_is_noted_without_a_name(database, capsys):
    """The line has the tenant and the count; the reference may be the name of somebody."""
    assert retention.main(["keep", "agency-1", "30"]) == 0
    assert "audit: plans of tenant agency-1 are kept for 30 days" in capsys.readouterr().err
    assert retention.main(["erase", "agency-1", "somebody by name"]) == 0
    told = capsys.readouterr().err
    assert "audit: erased of one reference of tenant agency-1: plans 1, entries" in told
    assert "somebody" not in told


def test_lines_of_the_trail_are_json_where_the_settings_say_so(capsys, monkeypatch):
    """Each line is one object, and says which user of the machine it was."""
    monkeypatch.setattr("getpass.getuser", lambda: "operator")
    start_trail("json")
    note_change("key k revoked")
    (line,) = capsys.readouterr().err.splitlines()
    assert json.loads(line)["message"] == "audit: key k revoked, at the command line by operator"


def test_a_user_without_a_name_is_told_as_that(capsys, monkeypatch):
    """A container may run under a number that no file knows."""

    def nobody() -> str:
        raise KeyError("uid 4711")

    monkeypatch.setattr("getpass.getuser", nobody)
    start_trail("text")
    note_change("key k revoked")
    assert "by a user without a name" in capsys.readouterr().err
