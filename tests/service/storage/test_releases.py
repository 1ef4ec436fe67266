"""One plan of a reference holds: who released it, when, and what came before."""

import hashlib

import pytest

from service.storage.releases import ReleaseStore


@pytest.fixture
def releases(database):
    """The releases on a fresh database of either kind."""
    return ReleaseStore(database)


def release(releases, plan_id, *, tenant_id="a", reference="r"):
    """Release a plan of the tenant a."""
    return releases.release(
        tenant_id=tenant_id,
        reference=reference,
        plan_id=plan_id,
        released_by="desk",
        key_id="k",
        outcome=plan_id.encode(),
    )


def test_a_later_release_supersedes_the_one_before(releases):
    """The newest holds; the earlier one names it, with its own digest unchanged."""
    first, second = release(releases, "plan_1"), release(releases, "plan_2")
    assert (first.release_number, second.release_number) == (1, 2)
    assert first.superseded_by is None
    found = releases.list(tenant_id="a", reference="r", limit=9)
    assert [one.plan_id for one in found] == ["plan_2", "plan_1"]
    assert [one.superseded_by for one in found] == [None, "plan_2"]
    assert found[1].outcome_digest == hashlib.sha256(b"plan_1").hexdigest()
    assert releases.of_plan(tenant_id="a", plan_id="plan_1") == found[1]
    assert len(releases.list(tenant_id="a", reference="r", limit=1)) == 1


def test_releasing_again_what_holds_changes_nothing(releases):
    """A repeated release is the first one; to go back to an earlier plan is a new one."""
    first = release(releases, "plan_1")
    assert release(releases, "plan_1") == first
    release(releases, "plan_2")
    back = release(releases, "plan_1")
    assert back.release_number == 3
    assert releases.of_plan(tenant_id="a", plan_id="plan_1") == back


def test_no_release_of_a_plan_that_holds_again_is_superseded_by_the_plan_itself(releases):
    """A plan that was released, replaced and released again holds; only the newest release does."""
    for plan_id in ("plan_1", "plan_2", "plan_1"):
        release(releases, plan_id)
    found = releases.list(tenant_id="a", reference="r", limit=9)
    assert [(one.plan_id, one.superseded_by) for one in found] == [
        ("plan_1", None),
        ("plan_2", "plan_1"),
        ("plan_1", None),
    ]
    assert [one.holds for one in found] == [True, False, False]
    assert releases.of_plan(tenant_id="a", plan_id="plan_1").holds
    assert not releases.of_plan(tenant_id="a", plan_id="plan_2").holds


def test_references_and_tenants_are_apart(releases):
    """What holds for one reference or tenant says nothing of another."""
    mine = release(releases, "plan_1")
    assert release(releases, "plan_2", reference="s").release_number == 1
    assert release(releases, "plan_3", tenant_id="b").release_number == 1
    assert releases.list(tenant_id="a", reference="r", limit=9) == [mine]
    assert releases.of_plan(tenant_id="b", plan_id="plan_1") is None
