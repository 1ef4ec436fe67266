"""The table of what binds a plan: the caps at the peak, then each step and what it changes."""

from __future__ import annotations

from api_schema.limits_answer import BindingLimitAnswer, LimitsThatBindAnswer, StepAnswer
from service.reports.tables import Cell, Table

COLUMNS = (
    "line",
    "what",
    "person_id",
    "load_kg",
    "cap_kg",
    "load_fraction",
    "verdict",
    "peak",
    "bound",
    "gain",
    "more_than_the_gap",
    "reason",
)
_OF_A_STEP = ("verdict", "peak", "bound", "gain", "more_than_the_gap", "reason")


def binding_limits_table(told: LimitsThatBindAnswer) -> Table:
    """A line for each cap at the peak, then one for each step, in the order of the answer.

    Shares of a cap are between 0 and 1; the last column names the cautions by their ids.
    """
    rows = [*map(_cap, told.binding), *map(_step, told.steps)]
    cells = tuple(tuple(row.get(name) for name in COLUMNS) for row in rows)
    ids = " ".join(caution.caution_id for caution in told.cautions)
    return Table(COLUMNS, cells).with_last("cautions", ids)


def trip_words(where: dict[str, str | int]) -> str:
    """A trip in words: "day 2, step 1, road to camp", as far as it is named."""
    numbers = [f"{name} {where[name]}" for name in ("day", "step") if name in where]
    named = {"from_place", "to_place"} <= where.keys()
    ends = [f"{where['from_place']} to {where['to_place']}"] if named else []
    return ", ".join([*numbers, *ends])


def _cap(one: BindingLimitAnswer) -> dict[str, Cell]:
    return {
        "line": "cap",
        "what": f"{one.rule_id}: {trip_words(one.where)}",
        "person_id": one.person_id,
        "load_kg": one.load_kg,
        "cap_kg": one.cap_kg,
        "load_fraction": one.load_fraction,
    }


def _step(step: StepAnswer) -> dict[str, Cell]:
    found = step.model_dump(mode="json")
    return {"line": "step", "what": step.text} | {name: found[name] for name in _OF_A_STEP}
