"""What reserves a request plans."""

from solver.checker.queries.planned_reserves import lacking, nights_planned, slept_at
from solver.problem import Reserve, ReserveKind
from tests.checker.replaying import facts_of

RESERVES = (
    Reserve("c1", "g1", ReserveKind.STORM, 2, "meal"),
    Reserve("c1", "g1", ReserveKind.DESCENT, 1, "meal"),
    Reserve("strip", "g1", ReserveKind.STORM, 4, "meal"),
)


def test_reserves_of_the_named_kinds_at_a_place_add_up():
    """Two storm nights and one for the descent are three at c1."""
    facts = facts_of("strip-c1 c1 c1-strip", reserves=RESERVES)
    (group,) = facts.problem.cook_groups
    assert nights_planned(facts, group, "c1", ReserveKind.STORM) == 2
    assert nights_planned(facts, group, "c1", ReserveKind.STORM, ReserveKind.DESCENT) == 3
    assert slept_at(facts, group) == ["c1", "c1"]


def test_a_finding_says_what_is_planned_and_what_is_least():
    """Of three nights one is planned, so two more would do."""
    facts = facts_of()
    (group,) = facts.problem.cook_groups
    finding = lacking("rule", group, "c1", word="a storm reserve", planned=1, least=3)
    assert (finding.amount, finding.unit) == (2, "nights")
    assert "a storm reserve of 1 night is planned, 3 nights is the least" in finding.message
    assert finding.instead == ("add a storm reserve of 2 nights for g1 at c1",)
