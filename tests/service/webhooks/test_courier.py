"""The courier: what is due is sent and signed, again after failures and after kills."""

import base64
import hashlib
import hmac
import json
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from api_schema.webhook import PlanFinalWebhook
from service import keys as keys_program
from service.app import create_app
from service.settings import Settings
from service.storage.webhooks import DueWebhook
from service.webhooks import courier as courier_module
from service.webhooks.courier import body_of
from service.webhooks.signing import tenant_secret
from tests.service.fake_translation import TRANSLATION
from tests.service.postgres import Server
from tests.service.processes import CALLER, RunningService, free_port, until
from tests.service.webhooks.receiver import Receiver, receiving

SECRET = "s" * 40
ROOT = Path(__file__).parents[3]


@pytest.fixture
def receiver() -> Iterator[Receiver]:
    """A caller's own server."""
    with receiving() as running:
        yield running


@pytest.fixture
def caller(tmp_path, monkeypatch) -> Iterator[TestClient]:
    """A caller of a service with webhooks, which tries three times with short pauses."""
    pauses = {"pauses_seconds": (0.05, 0.05)}
    monkeypatch.setattr(courier_module.Courier.__init__, "__kwdefaults__", pauses)
    monkeypatch.setattr(courier_module, "_LOOK_SECONDS", 0.05)
    settings = Settings(
        database=tmp_path / "plans.sqlite3",
        solve_memory_mb=400,
        webhook_secret=SECRET,
        webhook_targets="any",
        webhook_seconds=2.0,
    )
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as running:
        yield running


def ask(caller, receiver, **members) -> str:
    """The name of a plan whose caller wants to hear of it."""
    members = {"webhook_url": receiver.url, "reference": "booking 7", **members}
    answer = caller.post("/v1/plans", json=members, headers={"Prefer": "wait=20"})
    assert answer.status_code == 201, answer.text
    return answer.json()["plan_id"]


def standing(caller, plan_id: str) -> dict:
    """How the webhook of a plan stands."""
    return caller.get(f"/v1/plans/{plan_id}/webhook").json()


def settled(caller, plan_id: str) -> dict:
    """How it stands once no attempt is to come."""
    until(lambda: standing(caller, plan_id)["state"] in ("delivered", "given_up"), seconds=10)
    return standing(caller, plan_id)


def test_a_caller_hears_of_its_plan_with_a_signature_that_holds(caller, receiver):
    """The body names the plan, and the headers are signed with the tenant's secret."""
    plan_id = ask(caller, receiver)
    delivered = settled(caller, plan_id)
    assert (delivered["state"], delivered["attempts"], delivered["last_status"]) == (
        "delivered", 1, 200
    )  # fmt: skip
    ((headers, body),) = receiver.heard
    told = PlanFinalWebhook.model_validate_json(body)
    assert (told.plan_id, told.type, told.reference) == (plan_id, "plan.done", "booking 7")
    key = base64.b64decode(tenant_secret(SECRET, "default").removeprefix("whsec_"))
    signed = f"{headers['webhook-id']}.{headers['webhook-timestamp']}.".encode() + body
    code = base64.b64encode(hmac.new(key, signed, hashlib.sha256).digest()).decode()
    assert headers["webhook-signature"] == f"v1,{code}"
    assert headers["webhook-id"] == delivered["webhook_id"]


def test_what_fails_is_sent_again_under_the_same_id(caller, receiver):
    """A receiver that fails twice and then answers has heard one id and one body three times."""
    receiver.statuses = [500, 302, 200]
    delivered = settled(caller, ask(caller, receiver))
    assert (delivered["state"], delivered["attempts"]) == ("delivered", 3)
    assert len({(headers["webhook-id"], body) for headers, body in receiver.heard}) == 1


def test_what_fails_to_the_end_is_given_up_and_can_be_sent_again(caller, receiver):
    """After the last attempt nothing comes by itself; a POST begins anew."""
    receiver.statuses = [500, 500, 500, 200]
    plan_id = ask(caller, receiver)
    given_up = settled(caller, plan_id)
    assert given_up["state"] == "given_up"
    assert (given_up["last_status"], given_up["last_fault"]) == (500, "refused_by_receiver")
    assert given_up["next_attempt_at"] is None
    assert caller.post(f"/v1/plans/{plan_id}/webhook").status_code == 202
    assert settled(caller, plan_id)["state"] == "delivered"


def test_a_cancelled_plan_is_told_too(caller, receiver):
    """Its state says so, and it has no kind of outcome."""
    address = {"webhook_url": receiver.url, "order": "hang", "solve_seconds": 60}
    plan_id = caller.post("/v1/plans", json=address).json()["plan_id"]
    early = caller.post(f"/v1/plans/{plan_id}/webhook")
    assert (early.status_code, early.json()["code"]) == (409, "no_result_yet")
    caller.post(f"/v1/plans/{plan_id}/cancel")
    settled(caller, plan_id)
    told = json.loads(receiver.heard[0][1])
    assert (told["type"], told["outcome_kind"]) == ("plan.cancelled", None)


def test_the_body_is_the_same_at_every_attempt():
    """It is made from the plan alone, so that receivers can compare."""
    first = DueWebhook("plan_" + "0" * 26, "w", "t", "u", 1, None, "failed", "failed", 1_500)
    assert body_of(first) == body_of(replace(first, attempt=2))
    told = PlanFinalWebhook.model_validate_json(body_of(first))
    assert told.finished_at == datetime.fromisoformat("1970-01-01T00:00:01.500Z")


def test_a_message_that_cannot_be_made_is_given_up(caller, receiver, monkeypatch, caplog):
    """It has as many attempts as any other, is logged without what is stored, and ends."""
    made = []

    def broken(webhook: DueWebhook) -> bytes:
        made.append(webhook.attempt)
        return body_of(replace(webhook, state="nobody knows", reference="a secret"))

    monkeypatch.setattr(courier_module, "body_of", broken)
    plan_id = ask(caller, receiver)
    given_up = settled(caller, plan_id)
    assert (given_up["state"], given_up["attempts"]) == ("given_up", 3)
    assert (given_up["last_status"], given_up["last_fault"]) == (None, "internal_error")
    assert made == [1, 2, 3]
    assert receiver.heard == []
    told = [r.getMessage() for r in caplog.records if "cannot be made" in r.getMessage()]
    assert told == [
        f"webhook {given_up['webhook_id']}: its message cannot be made, ValidationError"
    ] * 3  # fmt: skip
    assert "secret" not in caplog.text
    monkeypatch.undo()
    assert caller.post(f"/v1/plans/{plan_id}/webhook").status_code == 202
    assert settled(caller, plan_id)["state"] == "delivered"


def test_the_program_shows_the_secret_of_a_tenant(monkeypatch, capsys):
    """One line for each secret in use, and a message where webhooks are off."""
    monkeypatch.setenv("HAULWRIGHT_WEBHOOK_SECRET", f"{SECRET},{'t' * 40}")
    assert keys_program.main(["webhook-secret", "agency-1"]) == 0
    shown = capsys.readouterr().out.split()
    assert shown == [tenant_secret(SECRET, "agency-1"), tenant_secret("t" * 40, "agency-1")]
    monkeypatch.delenv("HAULWRIGHT_WEBHOOK_SECRET")
    assert keys_program.main(["webhook-secret", "agency-1"]) == 1


def running_service(folder: Path, **settings: str) -> RunningService:
    """A service with webhooks that holds one for two seconds while it sends it."""
    environment = {
        "HAULWRIGHT_PORT": str(free_port()),
        "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
        "HAULWRIGHT_WEBHOOK_SECRET": SECRET,
        "HAULWRIGHT_WEBHOOK_TARGETS": "any",
        "HAULWRIGHT_WEBHOOK_SECONDS": "1",
        **settings,
    }
    return RunningService(environment=environment, log=folder / "log")


def test_a_kill_between_finish_and_delivery_loses_nothing(tmp_path, receiver):
    """The service is killed while the receiver keeps it waiting; the next one tells it again."""
    receiver.wait_seconds = 3.0
    service = running_service(tmp_path, HAULWRIGHT_DATABASE=str(tmp_path / "plans.sqlite3"))
    service.start()
    service.ask(webhook_url=receiver.url)
    until(lambda: len(receiver.heard) == 1)
    service.end(signal.SIGKILL)
    receiver.wait_seconds = 0.0
    service.start()
    try:
        until(lambda: len(receiver.heard) > 1)
    finally:
        service.end(signal.SIGKILL)
    assert len({headers["webhook-id"] for headers, _ in receiver.heard}) == 1
    assert SECRET not in (tmp_path / "log").read_text()


@pytest.mark.slow
def test_a_worker_tells_of_what_it_finished(tmp_path, receiver, postgres: Server):
    """With PostgreSQL the API process sends nothing; a worker does."""
    address = postgres.make("webhooks")
    service = running_service(tmp_path, HAULWRIGHT_DATABASE_URL=address)
    service.start()
    with (tmp_path / "worker-log").open("w") as log:
        worker = subprocess.Popen(
            [sys.executable, "-m", "tests.service.worker"],
            env=service.environment,
            cwd=ROOT,
            stdout=log,
            stderr=log,
        )
        try:
            plan_id = service.ask(webhook_url=receiver.url)
            until(lambda: len(receiver.heard) == 1, seconds=120)
            told = f"{service.url}/v1/plans/{plan_id}/webhook"
            until(lambda: CALLER.get(told, timeout=30).json()["state"] == "delivered")
        finally:
            worker.kill()
            worker.wait()
            service.end(signal.SIGKILL)
    assert "webhook_" in (tmp_path / "worker-log").read_text()
