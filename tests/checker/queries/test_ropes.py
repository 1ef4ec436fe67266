"""Who goes where on the rope."""

from solver.checker.queries.ropes import rope_teams
from tests.checker.replaying import replay_of
from tests.rules.party_worlds import GUIDED, team
from tests.rules.worlds import world


def _named(people):
    record = replay_of(world(people=people), {}, {}).records[0]
    return [
        (
            rope.rope_team_id,
            rope.lead.person.person_id,
            [b.person.person_id for b in rope.between],
            rope.last and rope.last.person.person_id,
        )
        for rope in rope_teams(record)
    ]


def test_the_first_guide_leads_and_the_last_of_the_others_is_last():
    """Each rope has its guide in front and its last client behind."""
    assert _named(GUIDED) == [
        ("r1", "guide-1", ["c1-1"], "c1-2"),
        ("r2", "guide-2", ["c2-1"], "c2-2"),
    ]


def test_without_a_guide_the_first_of_the_roster_leads():
    """A guide who stands later in the roster leads before the first."""
    assert _named(team("r1", "m1", "m2")) == [("r1", "m1", [], "m2")]
    assert _named(team("r1", "m1", "guide-1", "m2")) == [("r1", "guide-1", ["m1"], "m2")]


def test_somebody_alone_is_the_lead_and_nobody_is_last():
    """A rope of one has one end."""
    record = replay_of(world(people=team("r1", "m1")), {}, {}).records[0]
    (rope,) = rope_teams(record)
    assert (rope.last, rope.ends) == (None, {"m1"})
