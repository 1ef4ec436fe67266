"""The outbox of webhooks, on a file and on PostgreSQL."""

import time

import pytest

from service.storage.database import writing
from service.storage.leases import LeaseLostError
from service.storage.webhooks import MOST_AHEAD_MS, WebhookOutbox
from service.storage.wishes import Wishes
from service.webhooks.courier import PAUSES_SECONDS
from tests.service.storage.plans_in_store import FINAL, let_leases_run_out, rescue

URL = "https://trips.example/hooks"


@pytest.fixture
def outbox(database):
    """The outbox of the fresh database."""
    return WebhookOutbox(database)


def accept(store, *, tenant_id="t", url=URL):
    """The name of a plan whose caller wants to hear of it."""
    return store.accept(
        tenant_id=tenant_id, reference="r", solve_seconds=1.0, document={}, webhook_url=url
    ).plan_id


def take(outbox, *, most=9, hold_ms=60_000, places=None):
    """What is due now."""
    return outbox.take(most=most, hold_ms=hold_ms, places=places)


def finish_one(queue):
    """Claim a plan and finish it."""
    claim = queue.claim()
    queue.finish(claim, **FINAL)
    return claim


def test_a_webhook_is_due_from_the_moment_its_plan_is_final(store, queue, outbox):
    """Not before, and once: whoever takes it keeps it from others."""
    plan_id = accept(store)
    assert outbox.of_plan(tenant_id="t", plan_id=plan_id).state == "waiting"
    assert take(outbox) == []
    finish_one(queue)
    (due,) = take(outbox)
    assert (due.plan_id, due.url, due.attempt) == (plan_id, URL, 1)
    assert (due.reference, due.state, due.outcome_kind) == ("r", "done", "solved")
    assert take(outbox) == []
    assert outbox.of_plan(tenant_id="other", plan_id=plan_id) is None


def test_every_way_to_become_final_makes_it_due(store, queue, outbox, database):
    """Cancelled while it waits, cancelled while it runs, and closed by a rescue."""
    waiting = accept(store)
    assert Wishes(database).cancel(tenant_id="t", plan_id=waiting)
    running = accept(store)
    claim = queue.claim()
    queue.cancelled(claim)
    abandoned = accept(store)
    queue.claim()
    Wishes(database).cancel(tenant_id="t", plan_id=abandoned)
    let_leases_run_out(database)
    assert rescue(queue) == [abandoned]
    due = {one.plan_id: one.state for one in take(outbox)}
    assert due == dict.fromkeys((waiting, running, abandoned), "cancelled")


def test_a_finish_that_is_refused_makes_nothing_due(store, queue, outbox, database):
    """Plan and webhook change in one transaction, or neither does."""
    plan_id = accept(store)
    claim = queue.claim()
    let_leases_run_out(database)
    rescue(queue)
    queue.claim()
    with pytest.raises(LeaseLostError):
        queue.finish(claim, **FINAL)
    assert outbox.of_plan(tenant_id="t", plan_id=plan_id).state == "waiting"


def test_one_that_was_taken_by_a_process_that_died_is_taken_again(store, queue, outbox):
    """After the hold, with the same id, and the first taker can settle nothing any more."""
    plan_id = accept(store)
    finish_one(queue)
    (first,) = take(outbox, hold_ms=1)
    time.sleep(0.01)
    (second,) = take(outbox)
    assert second.webhook_id == first.webhook_id
    assert (first.attempt, second.attempt) == (1, 2)
    outbox.settle(first, status=500, fault="refused_by_receiver", again_ms=None)
    assert outbox.of_plan(tenant_id="t", plan_id=plan_id).state == "due"
    outbox.settle(second, status=200, fault=None, again_ms=None)
    standing = outbox.of_plan(tenant_id="t", plan_id=plan_id)
    assert (standing.state, standing.last_status, standing.next_at_ms) == ("delivered", 200, None)


def test_a_failed_attempt_is_made_again_later_and_at_last_given_up(store, queue, outbox):
    """While there is a pause it is due after it; without one it is given up, and can be resent."""
    plan_id = accept(store)
    finish_one(queue)
    (due,) = take(outbox)
    outbox.settle(due, status=None, fault="no_connection", again_ms=60_000)
    assert take(outbox) == []
    outbox.settle(due, status=None, fault="no_connection", again_ms=None)
    given_up = outbox.of_plan(tenant_id="t", plan_id=plan_id)
    assert (given_up.state, given_up.last_fault) == ("given_up", "no_connection")
    outbox.send_again(tenant_id="other", plan_id=plan_id)
    assert take(outbox) == []
    outbox.send_again(tenant_id="t", plan_id=plan_id)
    (again,) = take(outbox)
    assert (again.webhook_id, again.attempt) == (due.webhook_id, 1)


def test_one_that_a_wrong_clock_put_years_ahead_is_due(store, queue, outbox):
    """No pause is so long: the clock was ahead when it was set. A pause that may be is kept."""
    for _ in range(2):
        accept(store)
        finish_one(queue)
    late, soon = take(outbox)
    outbox.settle(soon, status=None, fault="no_connection", again_ms=MOST_AHEAD_MS - 60_000)
    outbox.settle(late, status=None, fault="no_connection", again_ms=3 * 365 * 86_400_000)
    assert outbox.are_due()
    assert [one.plan_id for one in take(outbox)] == [late.plan_id]
    assert not outbox.are_due()
    assert max(PAUSES_SECONDS) * 1000 < MOST_AHEAD_MS


def test_a_flood_of_one_tenant_leaves_room_for_another(store, queue, outbox, database):
    """Of one tenant four are taken at once, however many are due."""
    for number in range(7):
        accept(store, tenant_id="flood" if number < 6 else "other")
        finish_one(queue)
    taken = [one.tenant_id for one in take(outbox, most=16)]
    assert sorted(taken) == ["flood"] * 4 + ["other"]


def test_what_is_under_way_counts_against_its_tenant(store, queue, outbox, database):
    """Who has three places gets one more, who has four gets none, and who has none is first."""
    for tenant in ("three", "three", "full", "none", "none"):
        accept(store, tenant_id=tenant)
        finish_one(queue)
    places = {"three": 3, "full": 4, "gone": 1}
    turns = [take(outbox, most=1, places=places), take(outbox, places=places)]
    assert [sorted(one.tenant_id for one in taken) for taken in turns] == [
        ["none"], ["none", "three"]
    ]  # fmt: skip


def test_a_deleted_plan_takes_its_webhook_with_it(store, queue, outbox, database):
    """Nothing is told of a plan that is gone, and its address is gone too."""
    plan_id = accept(store)
    finish_one(queue)
    store.delete(tenant_id="t", plan_id=plan_id)
    assert take(outbox) == []
    with writing(database) as connection:
        left = connection.exec_driver_sql("SELECT count(*) FROM webhook_deliveries").scalar_one()
    assert left == 0
