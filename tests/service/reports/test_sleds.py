"""The masses of the loads, of their table and of the load sheet add up to the same."""

import json
from collections import defaultdict
from pathlib import Path

import pytest

from service.jobs.child import solve_document
from service.jobs.child_process import JobLimits, Talk
from service.reports.loads import loads_table
from service.reports.paper.load_sheet import IN_USE, load_sheet_table
from service.reports.sleds import empty_sled_kg

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.json"))


def first_outcome(request: dict) -> dict:
    """The outcome of a request whose caller wants the first plan that is found."""
    peaks = []
    talk = Talk(
        tell=lambda progress: peaks.append(json.loads(progress)["peak"]),
        should_finish=lambda: any(peak is not None for peak in peaks),
    )
    solved = solve_document(json.dumps(request).encode(), JobLimits(60.0, 2**31), talk)
    return json.loads(solved)


def summed(table) -> dict:
    """The masses of a table by trip, person and where they ride [kg]."""
    masses = defaultdict(float)
    for row in table.as_rows():
        if row["carried_in"] != IN_USE:
            key = (row["day"], row["step"], row["person_id"], row["carried_in"])
            masses[key] += row["kg"]
    return {key: round(kg, 3) for key, kg in masses.items()}


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_all_sums_agree(file):
    """Pack and sled of each person on each trip, for every example, to the gram."""
    outcome = first_outcome(json.loads(file.read_text()))
    told = {}
    for trip in outcome["plan"]["trips"]:
        for load in trip["loads"]:
            key = (trip["day"], trip["step"], load["person_id"])
            told[*key, "pack"] = load["pack_kg"]
            if load["sled_id"] is not None:
                told[*key, load["sled_id"]] = load["sled_kg"]
                assert empty_sled_kg(load) >= 0
    assert len(told) > 10
    assert summed(loads_table(outcome)) == told
    assert summed(load_sheet_table(outcome)) == told
