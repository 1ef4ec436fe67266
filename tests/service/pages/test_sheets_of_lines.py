"""Sheets about more than one plan: the history of re-plans, and a comparison."""

from dataclasses import replace

import pytest

from service.pages.blocks import BLANK
from service.pages.camps import waiting
from service.pages.compared import comparison_sections
from service.pages.facts import LineEntry
from service.pages.history import history
from service.pages.render import Stamp, drawing_width, render_pages, render_sheets
from tests.service.pages.conftest import PLAN_ID, facts_of
from tests.service.pages.test_pages import tables_of, words_of
from tests.service.reports.test_comparisons import answer

REST = {
    "say": ["Wait one more night."],
    "spent": [{"place": "camp-1", "cook_group": "all", "kind": "storm", "nights": 1, "left": 0,
               "why": "we sit in it"}],
    "let_go": [{"rule_id": "turn_round_stock_held", "reserve": None, "place": None,
                "reason": "we go down"}],
    "changes": [{"day": 4, "step": 1, "from": "camp-1", "to": "camp-2", "person_id": "lead",
                 "more": [], "fewer": [{"unit_id": "all/bottle", "count": 1}], "new": True}],
    "last_turn_day": 4, "last_summit_day": None,
}  # fmt: skip


def test_the_history_has_what_was_counted_and_what_changes(solved):
    """Each plan of the line has its row; changes, reserves and waivers are those of the re-plan."""
    line = (LineEntry("plan_a", None, ()), LineEntry(PLAN_ID, "evening of day 2", ("Wait.",)))
    known = replace(facts_of({**solved, "rest": REST}, "metric"), line=line)
    made = history(known)
    plans, changes, gone, to_come = tables_of(made)
    assert plans.rows[0][:2] == ("plan_a", "at the start")
    assert plans.rows[1] == (f"{PLAN_ID} (this plan)", "evening of day 2", "Wait.")
    (bottle,) = (u["label"] for u in solved["plan"]["units"] if u["unit_id"] == "all/bottle")
    assert changes.rows[0][:5] == ("4", "camp-1 to camp-2 (new)", "lead", "–", bottle)
    assert "/" not in bottle
    assert [row[1] for row in gone.rows] == ["we sit in it", "we go down"]
    assert len(to_come.rows) >= 6
    assert "Wait one more night." in words_of(made)
    assert "day 4" in waiting(known).blocks[0].lines[-1]


def test_a_first_plan_has_room_for_its_re_plans(facts):
    """Without re-plans the sheet has blank rows only; a plan with a newer one says so on top."""
    (to_come,) = tables_of(history(facts))
    assert all(cell == BLANK for row in to_come.rows for cell in row[1:])
    old = replace(facts, superseded_by="plan_b")
    html = render_pages(old, [history(old)], "a4").html
    assert b"SUPERSEDED by plan plan_b" in html


@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
def test_a_comparison_has_sheets(paper):
    """Every variant has its figures beside the base, its reason or fault, and what differs."""
    compared = answer()
    sections = comparison_sections(compared, width=drawing_width(paper))
    rows = [row for t in tables_of(*sections) for row in t.rows]
    names = {c.name.strip("\u200b") for t in tables_of(*sections) for c in t.columns}
    assert {row.name for row in compared.rows} <= names
    assert max(len(t.columns) for t in tables_of(*sections)) <= 6
    assert ("none", "Too <heavy>.") in rows
    assert ("faulty", "Write an object.") in rows
    assert any(row[:2] == ("later", "start date a -> b") for row in rows)
    assert "1 variants were not solved" in words_of(*sections)
    html = render_sheets(Stamp("x", "c 1", "c", "s"), sections, paper).html.decode()
    assert 'content: "c 1"' in html
    assert html.count("<svg") == 1
