"""What is worked out of a request is worked out once in each process."""

import cProfile
import json
import pstats
from collections.abc import Callable

from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.desk_child import judge_plan
from solver.checker import check_request
from solver.problem import read_timeline
from solver.problem.faults import examine
from tests.service.one_night_out import REQUEST

ONCE = (read_timeline, examine, check_request)


def calls_during(work: Callable[[], object]) -> dict[str, int]:
    """How often each of the functions is called while something is done."""
    profile = cProfile.Profile()
    profile.runcall(work)
    counted = pstats.Stats(profile).stats
    return {
        function.__name__: counted.get(
            (
                function.__code__.co_filename,
                function.__code__.co_firstlineno,
                function.__code__.co_name,
            ),
            (0, 0),
        )[1]
        for function in ONCE
    }


def test_a_child_examines_and_judges_a_request_once():
    """From the stored request to the answer: one timeline, one search for faults, one judgement."""
    document = json.dumps(REQUEST).encode()
    limits = JobLimits(wall_seconds=20, memory_bytes=2**31)
    answers = []
    counts = calls_during(lambda: answers.append(solve_document(document, limits, SILENT)))
    assert json.loads(answers[0])["outcome"] == "solved"
    assert counts == {"read_timeline": 1, "examine": 1, "check_request": 1}


def test_a_check_of_a_plan_shares_one_timeline():
    """Request, plan, check and verdict are read with one timeline."""
    document = {"request": REQUEST, "plan": {"trips": []}}
    counts = calls_during(lambda: judge_plan(document))
    assert counts == {"read_timeline": 1, "examine": 1, "check_request": 1}
