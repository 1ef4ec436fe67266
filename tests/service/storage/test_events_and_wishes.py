"""What happens to a plan is kept in order, and wishes reach whoever solves it."""

import threading

import pytest
from sqlalchemy import Engine, event

from service.storage.events import PlanEvents
from service.storage.wishes import Wishes
from tests.service.storage.plans_in_store import FINAL, accept, let_leases_run_out, rescue, state_of


def kinds(database: Engine, plan_id: str, tenant_id: str = "t") -> list[str]:
    """What happened to a plan, in order."""
    events = PlanEvents(database).after(tenant_id=tenant_id, plan_id=plan_id, number=0)
    assert [event.number for event in events] == list(range(1, len(events) + 1))
    return [event.kind for event in events]


def test_everything_that_happens_to_a_plan_is_an_event(store, queue, database):
    """From acceptance to the end each step is kept in order, and another tenant sees none."""
    plan_id = accept(store)
    queue.hand_back(queue.claim(), crashed=False)
    claim = queue.claim()
    queue.tell(claim, b'{"stage": "packing"}')
    queue.finish(claim, **FINAL)
    expected = ["queued", "running", "requeued", "running", "progress", "done"]
    assert kinds(database, plan_id) == expected
    assert kinds(database, plan_id, "other") == []
    (last,) = PlanEvents(database).after(tenant_id="t", plan_id=plan_id, number=5)
    assert (last.kind, last.document) == ("done", None)


def test_one_look_tells_what_is_new_of_many_plans(store, queue, database):
    """Each plan has its last number, and its events if there are more; what is gone is left out."""
    first, second, third = (accept(store) for _ in range(3))
    queue.tell(queue.claim(), b'{"stage": "packing"}')
    looked: list[str] = []
    event.listen(database, "after_cursor_execute", lambda *row: looked.append(row[2]))
    events = PlanEvents(database)
    places = {first: 1, second: 1, third: 7, "plan_of_nobody": 3}
    news = events.since(places)
    assert {plan_id: one.last for plan_id, one in news.items()} == {first: 3, second: 1, third: 1}
    told = [(one.number, one.kind, one.document) for one in news[first].events]
    assert told == [(2, "running", None), (3, "progress", b'{"stage": "packing"}')]
    assert news[second].events == news[third].events == []
    looked.clear()
    assert events.since({first: 3, second: 1}).keys() == {first, second}
    assert len([one for one in looked if "plan_events" in one]) == 1


def test_a_waiting_plan_is_cancelled_at_once(store, queue, database):
    """Nobody can claim it any more, and cancelling it again changes nothing."""
    plan_id = accept(store)
    wishes = Wishes(database)
    assert wishes.cancel(tenant_id="t", plan_id=plan_id)
    assert queue.claim() is None
    assert wishes.cancel(tenant_id="t", plan_id=plan_id)
    assert kinds(database, plan_id) == ["queued", "cancelled"]
    assert wishes.final_among([plan_id]) == [plan_id]


def test_a_wish_reaches_the_worker_through_the_database(store, queue, database):
    """A running plan is first to be finished, then to be cancelled, and its holder closes it."""
    plan_id = accept(store)
    wishes = Wishes(database)
    assert not wishes.finish(tenant_id="t", plan_id=plan_id)
    claim = queue.claim()
    assert wishes.of(claim) is None
    assert wishes.finish(tenant_id="t", plan_id=plan_id)
    assert wishes.of(claim) == "finish"
    assert wishes.cancel(tenant_id="t", plan_id=plan_id)
    assert wishes.of(claim) == "cancel"
    queue.cancelled(claim)
    assert state_of(store, plan_id) == ("cancelled", 1)
    assert kinds(database, plan_id)[-3:] == ["finishing", "cancelling", "cancelled"]


def test_a_final_plan_takes_no_wish(store, queue, database):
    """What is done can be neither cancelled nor finished, nor can a plan of another tenant."""
    plan_id = accept(store)
    wishes = Wishes(database)
    assert not wishes.cancel(tenant_id="other", plan_id=plan_id)
    queue.finish(queue.claim(), **FINAL)
    assert not wishes.cancel(tenant_id="t", plan_id=plan_id)
    assert not wishes.finish(tenant_id="t", plan_id=plan_id)


def test_an_abandoned_plan_that_was_to_be_cancelled_is(store, queue, database):
    """A worker that died after the wish leaves a plan that rescue closes as cancelled."""
    plan_id = accept(store)
    queue.claim()
    Wishes(database).cancel(tenant_id="t", plan_id=plan_id)
    let_leases_run_out(database)
    assert rescue(queue) == [plan_id]
    assert state_of(store, plan_id)[0] == "cancelled"


@pytest.mark.parametrize("end", ["finish", "hand back", "crash", "failed"])
def test_a_cancel_that_was_accepted_holds_whatever_its_worker_does(store, queue, database, end):
    """The worker has not heard of it: the plan is cancelled and has no outcome all the same."""
    plan_id = accept(store)
    claim = queue.claim()
    assert Wishes(database).cancel(tenant_id="t", plan_id=plan_id)
    if end in ("finish", "failed"):
        queue.finish(claim, **{**FINAL, "state": "done" if end == "finish" else "failed"})
    else:
        assert queue.hand_back(claim, crashed=end == "crash")
    plan = store.read(tenant_id="t", plan_id=plan_id)
    assert (plan.summary.state, plan.summary.outcome_kind) == ("cancelled", None)
    assert plan.outcome_document is None
    assert plan.summary.finished_at_ms is not None
    assert kinds(database, plan_id) == ["queued", "running", "cancelling", "cancelled"]
    assert Wishes(database).final_among([plan_id]) == [plan_id]


def test_a_plan_that_nobody_cancelled_is_handed_back(store, queue, database):
    """It waits again, also with the wish to finish, and that is not its end."""
    plan_id = accept(store)
    assert not queue.hand_back(queue.claim(), crashed=False)
    claim = queue.claim()
    assert Wishes(database).finish(tenant_id="t", plan_id=plan_id)
    assert not queue.hand_back(claim, crashed=False)
    assert state_of(store, plan_id)[0] == "queued"


@pytest.mark.parametrize("end", ["hand back", "crash", "rescue"])
def test_a_wish_to_finish_stays_with_a_plan_that_waits_again(store, queue, database, end):
    """Asked again it is still granted, once noted, and whoever solves the plan next hears of it."""
    plan_id = accept(store)
    wishes, claim = Wishes(database), queue.claim()
    assert wishes.finish(tenant_id="t", plan_id=plan_id)
    if end == "rescue":
        let_leases_run_out(database)
        assert rescue(queue) == []
    else:
        assert not queue.hand_back(claim, crashed=end == "crash")
    assert state_of(store, plan_id)[0] == "queued"
    assert wishes.finish(tenant_id="t", plan_id=plan_id)
    assert not wishes.finish(tenant_id="other", plan_id=plan_id)
    assert kinds(database, plan_id) == ["queued", "running", "finishing", "requeued"]
    if end != "crash":
        assert wishes.of(queue.claim()) == "finish"


def test_a_plan_that_waits_again_without_a_wish_is_not_running(store, queue, database):
    """Like one that never ran, it can be finished early when it runs."""
    plan_id = accept(store)
    assert not queue.hand_back(queue.claim(), crashed=False)
    assert not Wishes(database).finish(tenant_id="t", plan_id=plan_id)
    assert Wishes(database).of(queue.claim()) is None


def test_a_plan_that_is_handed_back_while_it_is_cancelled_is_cancelled(store, queue, database):
    """Its worker stops between two statements of the cancel; neither loses sight of the plan."""
    plan_id = accept(store)
    claim = queue.claim()
    backs: list[threading.Thread] = []

    def hand_back_meanwhile(_connection, _cursor, statement, *_) -> None:
        if backs or threading.current_thread() is not threading.main_thread():
            return
        if "plans" not in statement:
            return
        backs.append(threading.Thread(target=queue.hand_back, args=(claim,), kwargs={"crashed": 0}))
        backs[0].start()
        backs[0].join(0.5)

    event.listen(database, "after_cursor_execute", hand_back_meanwhile)
    assert Wishes(database).cancel(tenant_id="t", plan_id=plan_id)
    backs[0].join()
    assert state_of(store, plan_id)[0] == "cancelled"
    assert kinds(database, plan_id)[-1] == "cancelled"
