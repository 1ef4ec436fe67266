"""The table of a comparison, as rows and as CSV."""

import copy
import datetime as dt
import json

from api_schema.comparison_answer import ComparisonAnswer
from service.errors import Fault
from service.reports.comparisons import (
    VariantPlan,
    comparison_rows,
    comparison_table,
)
from service.reports.figures import figures_of_outcome
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from tests.service.one_night_out import REQUEST, SOLVED

OUTCOME = json.loads(write_outcome(SOLVED, read_plan_request(REQUEST)).model_dump_json())
LATER = REQUEST | {"start_date": "2028-03-01"}
IDS = ("plan_" + "0" * 26, "plan_" + "1" * 26)


def variant(name: str, **facts) -> VariantPlan:
    """A solved variant, or what else is said."""
    told = {
        "edits": (),
        "faults": (),
        "plan_id": IDS[1],
        "state": "done",
        "request": REQUEST,
        "outcome": OUTCOME,
    } | facts
    outcome = told.pop("outcome")
    figures = None if outcome is None else figures_of_outcome(outcome, told["request"])
    return VariantPlan(name, figures=figures, **told)


def heavier() -> dict:
    """The outcome with a higher peak and another can."""
    outcome = copy.deepcopy(OUTCOME)
    outcome["peak"]["load_fraction"] = 0.8
    for unit in outcome["plan"]["taken_along"]:
        unit["count"] += unit["unit_id"] == "all/can"
    return outcome


NONE = {"outcome": "infeasible", "conflicts": [{"message": "Too <heavy>."}]}
VARIANTS = [
    variant("base", plan_id=IDS[0]),
    variant("later", request=LATER, outcome=heavier(), edits=("start date a -> b",)),
    variant("none", outcome=NONE),
    variant("faulty", plan_id=None, state=None, request=None, outcome=None,
            faults=(Fault("/variants/2/patch", "x", "Write an object."),)),
    variant("waiting", state="queued", outcome=None),
    variant("too many", plan_id=None, state=None, request=None, outcome=None),
]  # fmt: skip


def answer() -> ComparisonAnswer:
    """All kinds of rows in one comparison."""
    return ComparisonAnswer(
        chosen=None,
        comparison_id="comparison_" + "0" * 26,
        reference="booking 7",
        created_at=dt.datetime(2028, 1, 1, tzinfo=dt.UTC),
        done=False,
        rows=comparison_rows(VARIANTS),
    )


def test_each_row_says_what_became_of_its_variant():
    """Solved, infeasible, faulty, waiting and not accepted stand side by side."""
    rows = answer().rows
    assert [row.state for row in rows] == [
        "done",
        "done",
        "done",
        "faulty",
        "queued",
        "not_accepted",
    ]
    assert rows[2].figures.reason == "Too <heavy>."
    assert rows[3].errors[0].pointer == "/variants/2/patch"
    assert [row.figures is None for row in rows] == [False, False, False, True, True, True]


def test_a_row_says_what_differs_from_the_base():
    """Input, figures and the address of the whole difference; of the base itself there is none."""
    base, later, none, *_ = answer().rows
    assert (base.change, base.input, base.difference) == ({}, [], None)
    assert [part.where for part in later.input] == ["/start_date"]
    assert later.change["fuel_containers"] == 1
    assert later.change["peak"] == round(0.8 - OUTCOME["peak"]["load_fraction"], 4)
    assert later.difference == f"/v1/plans/{IDS[0]}/difference?to={IDS[1]}"
    assert none.change == {}


def test_the_table_has_a_line_for_each_variant():
    """CSV has one line for each row, with its figures and reason."""
    rows = comparison_table(answer()).as_rows()
    assert [row["name"] for row in rows] == [v.name for v in VARIANTS]
    assert (rows[1]["peak"], rows[1]["edits"]) == (0.8, "start date a -> b")
    assert rows[1]["input"] == "/start_date changed"
    assert rows[2]["reason"] == "Too <heavy>."
    assert rows[3]["errors"] == "/variants/2/patch: Write an object."
