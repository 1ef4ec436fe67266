"""Figures in the making, and the power banks that come out of them."""

from solver.problem import read_timeline
from solver.requirements.batteries import count_batteries
from solver.requirements.tally import Tally, days_input, people_input
from tests.requirements.snow_world import snow_world, with_conditions


def test_a_tally_keeps_figures_in_the_order_in_which_they_are_counted():
    """Each figure has its value and inputs, and common practice for a source by default."""
    tally = Tally()
    problem = snow_world()
    inputs = (days_input(problem), people_input(problem))
    tally.count("one", (), 1, "pieces", "by hand", inputs)
    tally.count("two", (), 2, "pieces", "by hand", (), source="a standard")
    assert [(f.figure_id, f.value, f.source) for f in tally.figures] == [
        ("one", 1, "common practice, no source"),
        ("two", 2, "a standard"),
    ]
    assert [(i.name, i.value, i.is_default) for i in inputs] == [
        ("days", 3, False),
        ("people", 2, False),
    ]


def test_a_panel_without_a_latitude_gives_a_notice_and_saves_no_battery():
    """20 W that stand nowhere are not counted: two power banks as without a panel, and a notice."""
    problem = with_conditions(snow_world(), panel_power_w=20.0, month=5, latitude_deg=None)
    tally = Tally()
    count_batteries(problem, read_timeline(problem), tally)
    assert [(f.figure_id, f.value) for f in tally.figures] == [("batteries", 2)]
    assert [n.notice_id for n in tally.notices] == ["panel_not_counted"]
