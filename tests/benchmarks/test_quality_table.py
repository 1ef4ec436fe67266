"""The table of plans: figures by hand on a tiny plan, and the page's rows."""

from __future__ import annotations

import json
from dataclasses import asdict, replace

import pytest

from tests.benchmarks.plan_quality import Quality, quality
from tests.benchmarks.quality_table import (
    BEGIN,
    END,
    EXAMPLES,
    GLACIERS,
    HEAD,
    Row,
    all_rows,
    line,
    posed,
    solved_row,
    summed_up,
    with_table,
)
from tests.rules.worlds import item, person, plan_of, world


def test_figures_of_a_plan_are_those_worked_out_by_hand():
    """A rope of 4 kg that changes hands once, 20 and 10 kg caps, bags of 10 g for each."""
    people = (person("m1"), person("m2", pack_g=10_000))
    problem = world(people=people, gear=(item("rope", mass_g=4_000),))
    loads = ({"m1": "rope", "m2": ""}, {"m1": "", "m2": "rope"})
    found = quality(problem, plan_of(problem, *loads))
    assert found.peak >= 4_000
    assert (found.swaps, found.single_kept, found.single_kit) == (1, 0, 1)
    assert (found.single_kept_out, found.single_people) == (1, 2)
    assert found.hard_loads == found.mixed == found.containers == 0
    assert 0.2 <= found.weakest < 0.25
    assert 0.15 <= found.party < 0.2


FIGURES = Quality(9_000, 4, 1, 2, 2, 1.5, 0, 9, 3, 0.7, 0.6, 8)


def test_the_table_is_put_between_its_marks():
    """What stands around the marks stays, and each row has as many cells as the head."""
    rows = [Row("a", figures=FIGURES, swaps_bound=2), Row("b", without="Infeasible")]
    page = with_table(f"before\n{BEGIN}old\n{END}after\n", rows)
    assert page.startswith(f"before\n{BEGIN}\n{HEAD}\n")
    assert page.endswith(f"{line(rows[1])}\n\n{END}after\n")
    assert "old" not in page
    assert {line(row).count("|") for row in rows} == {HEAD.count("|")}


def test_glaciers_are_summed_up_over_those_with_a_plan():
    """Mean and median of each figure, and how many of them there are."""
    rows = [
        Row(str(n), figures=replace(FIGURES, swaps=swaps), seconds=1)
        for n, swaps in enumerate((0, 2, 10))
    ]
    middle, half = summed_up([*rows, Row("none", without="Infeasible")])
    assert middle.name == "3 of 4 glaciers, mean"
    assert [one.figures.swaps for one in (middle, half) if one.figures] == [4, 2]
    assert summed_up([Row("none", without="Infeasible")]) == []


def test_rows_of_a_record_are_not_solved_again(tmp_path):
    """With every row in the record the table is there at once, sizes and glaciers included."""
    record = tmp_path / "rows.jsonl"
    sizes = ("small", "medium", "large", "xl", "xxl")
    names = (*EXAMPLES, *sizes, *GLACIERS)
    lines = (json.dumps(asdict(Row(name, figures=FIGURES))) for name in names)
    record.write_text("".join(f"{text}\n" for text in lines), encoding="utf-8")
    found = all_rows(record)
    assert [row.name for row in found[:-2]] == [*EXAMPLES, *sizes]
    assert found[-1].name == "20 of 20 glaciers, median"


@pytest.mark.parametrize("name", ["smallest-request"])
def test_a_row_is_solved_and_has_all_its_figures(name):
    """The example has a plan, within a tenth of a per cent of its bound."""
    row = solved_row(name)
    assert row.figures is not None
    assert row.gap <= 0.1
    assert row.weighted >= row.figures.swaps > 0
    assert posed("glacier-3")[0].is_glaciated
