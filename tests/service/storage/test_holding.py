"""One plan of a party holds, whatever was planned, released or deleted before, on both engines."""

import time

import pytest
from sqlalchemy import update

from service.storage.clock import NOW_MS
from service.storage.database import reading, writing
from service.storage.holding import replaced_by, superseded_by
from service.storage.leases import PlanQueue
from service.storage.lineage import Lineage
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.retention import RetentionStore
from service.storage.tables import PlanRow

SOLVED, INFEASIBLE = "solved", "infeasible"


class Party:
    """The plans of one party, by short names; each is made later than the one before."""

    def __init__(self, database):
        self.database, self.store = database, PlanStore(database, queue_limit=99)
        self.ids = {}

    def plan(self, name, former=None, *, outcome=SOLVED, what_if=False, reference="r"):
        """Make a plan, or the re-plan of another one; without an outcome it waits."""
        time.sleep(0.002)
        self.ids[name] = self.store.accept(
            tenant_id="a",
            reference=reference,
            solve_seconds=1.0,
            document={},
            former_plan_id=None if former is None else self.ids[former],
            what_if=what_if,
        ).plan_id
        if outcome is not None:
            self.solve(name, outcome)

    def solve(self, name, outcome=SOLVED):
        """Finish a plan."""
        queue = PlanQueue(self.database, lease_ms=60_000)
        claim = queue.claim(self.ids[name])
        queue.finish(claim, state="done", outcome_kind=outcome, outcome=b"{}")

    def release(self, name):
        """Release a plan."""
        time.sleep(0.002)
        return ReleaseStore(self.database).release(
            tenant_id="a",
            reference="r",
            plan_id=self.ids[name],
            released_by="desk",
            key_id=None,
            outcome=b"{}",
        )

    def delete(self, name):
        """Delete a plan."""
        assert self.store.delete(tenant_id="a", plan_id=self.ids[name])

    def told(self):
        """What supersedes each plan that is there."""
        names = {plan_id: name for name, plan_id in self.ids.items()}
        found = {}
        with reading(self.database) as connection:
            for name, plan_id in self.ids.items():
                if self.store.read(tenant_id="a", plan_id=plan_id) is not None:
                    by = superseded_by(connection, tenant_id="a", plan_id=plan_id)
                    found[name] = names.get(by)
        return found

    def replaced(self):
        """What the sheets of each plan name in its place."""
        names = {plan_id: name for name, plan_id in self.ids.items()}
        with reading(self.database) as connection:
            return {
                name: names.get(replaced_by(connection, tenant_id="a", plan_id=plan_id))
                for name, plan_id in self.ids.items()
                if self.store.read(tenant_id="a", plan_id=plan_id) is not None
            }

    def line(self, name):
        """The line to a plan."""
        names = {plan_id: name for name, plan_id in self.ids.items()}
        line = Lineage(self.database).line_to(tenant_id="a", plan_id=self.ids[name])
        return [names[entry.plan_id] for entry in line]


@pytest.fixture
def party(database):
    """A party with the plan p, and b and d on its way, one after the other."""
    party = Party(database)
    party.plan("p")
    party.plan("b", "p")
    party.plan("d", "b")
    return party


def test_the_last_of_a_chain_holds(party):
    """Every plan before it names it; another tenant is told nothing."""
    assert party.told() == {"p": "d", "b": "d", "d": None}
    with reading(party.database) as connection:
        assert superseded_by(connection, tenant_id="b", plan_id=party.ids["p"]) is None


def test_a_corrected_re_plan_supersedes_the_first_one_and_what_came_of_it(party):
    """Counted anew from p, the plan c replaces b and d; a re-plan of b replaces c in its turn."""
    party.plan("c", "p")
    assert party.told() == {"p": "c", "b": "c", "d": "c", "c": None}
    party.plan("e", "b")
    assert party.told() == {"p": "e", "b": "e", "d": "e", "c": "e", "e": None}


@pytest.mark.parametrize("outcome", [None, INFEASIBLE])
def test_what_is_not_solved_supersedes_nothing_and_is_superseded_by_later_ones_only(party, outcome):
    """The plan that held holds on, and does not take the place of one asked for later."""
    party.plan("c", "p", outcome=outcome)
    assert party.told() == {"p": "d", "b": "d", "d": None, "c": None}
    party.plan("e", "d")
    assert party.told() == {"p": "e", "b": "e", "d": "e", "c": "e", "e": None}


def test_of_two_that_are_solved_in_the_other_order_the_one_asked_for_last_holds(party):
    """The corrected count was sent later, whenever its plan was ready."""
    party.plan("c", "d", outcome=None)
    party.plan("e", "d")
    party.solve("c")
    assert party.told() == {"p": "e", "b": "e", "d": "e", "c": "e", "e": None}


def test_what_is_only_looked_at_counts_once_it_is_released(party):
    """Before, it supersedes nothing, and the plan that holds does not supersede it."""
    party.plan("look", "d", what_if=True)
    assert party.told() == {"p": "d", "b": "d", "d": None, "look": None}
    party.release("look")
    assert party.told() == {"p": "look", "b": "look", "d": "look", "look": None}


def test_what_is_only_looked_at_counts_once_it_is_planned_again_from(party):
    """A later plan of the party has replaced it until its own re-plan holds."""
    party.plan("look", "b", what_if=True)
    party.plan("c", "d")
    assert party.told() == {"p": "c", "b": "c", "d": "c", "look": "c", "c": None}
    party.plan("e", "look")
    assert party.told() == {"p": "e", "b": "e", "d": "e", "look": "e", "c": "e", "e": None}
    party.delete("c")
    party.delete("e")
    assert party.told() == {"p": "look", "b": "look", "d": "look", "look": None}


def test_the_older_of_a_fork_holds_once_it_is_released(party):
    """Whoever releases b after c was made says that they follow b."""
    party.plan("c", "p")
    party.release("b")
    assert party.told() == {"p": "b", "b": None, "d": "b", "c": "b"}
    party.plan("e", "c")
    assert party.told() == {"p": "e", "b": "e", "d": "e", "c": "e", "e": None}


def test_a_first_plan_that_was_released_before_the_start_can_be_released_again(database):
    """The first release does not hold against the re-plan; the second one does, until the next."""
    party = Party(database)
    party.plan("p")
    assert party.release("p").release_number == 1
    assert party.release("p").release_number == 1
    party.plan("b", "p")
    assert party.told() == {"p": "b", "b": None}
    assert party.release("p").release_number == 2
    assert party.release("p").release_number == 2
    assert party.told() == {"p": None, "b": "p"}


def test_a_line_survives_a_plan_deleted_in_the_middle(party):
    """What came of it comes of what it came of itself."""
    party.plan("other", "b", what_if=True)
    party.delete("b")
    assert party.told() == {"p": "d", "d": None, "other": None}
    assert (party.line("d"), party.line("other")) == (["p", "d"], ["p", "other"])
    party.plan("e", "other")
    assert party.told() == {"p": "e", "d": "e", "other": "e", "e": None}


def test_what_is_only_looked_at_stays_so_when_the_plan_before_it_is_deleted(party):
    """With d gone, its what-if comes of b, and b holds again."""
    party.plan("look", "d", what_if=True)
    party.delete("d")
    assert party.told() == {"p": "b", "b": None, "look": None}
    assert party.line("look") == ["p", "b", "look"]


def test_a_party_stays_together_when_its_first_plan_is_deleted(party):
    """The re-plans of a deleted first plan are still for one party."""
    party.plan("c", "p")
    party.delete("p")
    assert party.told() == {"b": "c", "d": "c", "c": None}
    assert party.line("d") == ["b", "d"]
    party.delete("b")
    assert party.told() == {"d": "c", "c": None}


def test_where_the_last_plan_is_deleted_the_next_one_that_stands_holds(party):
    """Down to the first plan."""
    party.plan("c", "p")
    party.delete("c")
    assert party.told() == {"p": "d", "b": "d", "d": None}
    party.delete("d")
    assert party.told() == {"p": "b", "b": None}
    party.delete("b")
    assert party.told() == {"p": None}


def test_a_line_survives_what_is_erased_or_too_old(database, monkeypatch):
    """Two plans in the middle go at once, in steps of one and in one step."""
    for at_once in (1, 100):
        monkeypatch.setattr("service.storage.retention._AT_ONCE", at_once)
        for erased in (True, False):
            party = Party(database)
            party.plan("p", reference="s")
            party.plan("b", "p", reference="r")
            party.plan("c", "b", reference="r")
            party.plan("d", "c", reference="s")
            retention = RetentionStore(database)
            if erased:
                assert retention.erase(tenant_id="a", reference="r").plans == 2
            else:
                old = PlanRow.plan_id.in_([party.ids["b"], party.ids["c"]])
                with writing(database) as connection:
                    moment = {"finished_at_ms": NOW_MS - 3 * 86_400_000}
                    connection.execute(update(PlanRow).where(old).values(moment))
                retention.keep(tenant_id="a", days=2)
                assert retention.remove_old() == 2
            assert party.told() == {"p": "d", "d": None}
            assert party.line("d") == ["p", "d"]


def test_a_released_plan_of_another_line_takes_the_place_of_all_before_it(party):
    """The sheets of every plan of its reference name it; the question of the party is another."""
    party.release("d")
    party.plan("p2")
    assert party.replaced() == {"p": "d", "b": "d", "d": None, "p2": None}
    party.release("p2")
    assert party.replaced() == {"p": "p2", "b": "p2", "d": "p2", "p2": None}
    assert party.told() == {"p": "d", "b": "d", "d": None, "p2": None}
    party.plan("b2", "p2")
    party.plan("later")
    last = {"p": "b2", "b": "b2", "d": "b2", "p2": "b2", "b2": None, "later": None}
    assert party.replaced() == last


def test_whichever_line_was_planned_or_released_last_is_in_use(party):
    """A release or a re-plan of the first line puts it in use again, and so does a deletion."""
    party.plan("p2")
    party.release("p2")
    party.release("b")
    assert party.replaced() == {"p": "b", "b": None, "d": "b", "p2": "b"}
    party.release("p2")
    party.plan("e", "d")
    assert party.replaced() == {"p": "e", "b": "e", "d": "e", "p2": None, "e": None}
    party.delete("e")
    assert party.replaced() == {"p": "p2", "b": "p2", "d": "p2", "p2": None}
    party.delete("p2")
    assert party.replaced() == {"p": "b", "b": None, "d": "b"}


def test_a_release_of_another_reference_or_tenant_replaces_nothing(database):
    """The plans of two bookings have nothing to do with each other."""
    party = Party(database)
    party.plan("other", reference="s")
    party.plan("none", reference=None)
    party.plan("p")
    party.release("p")
    assert party.replaced() == {"other": None, "none": None, "p": None}
    with reading(database) as connection:
        assert replaced_by(connection, tenant_id="b", plan_id=party.ids["p"]) is None
