"""What schemathesis is told of this service: a check of its own, and how to go on from answers.

A body made up from the schema alone is next to never in order, and what is refused leads nowhere.
So on walks from answer to answer most positive cases get the example of the description instead,
and wait for their outcome. Every call of a walk is written to the file that HEARD names: operation
and status, one a line.
"""

import json
import os
import zlib
from pathlib import Path
from typing import Any

import schemathesis
from schemathesis import GenerationMode

from service.http.problem_answers import PROBLEM_JSON

HEARD = "CONTRACT_HEARD"
"""The environment variable that names the file of the tally; it is set on walks alone."""
MOST_OF_FOUR = 3
WAIT = "wait=20"

DESCRIPTION = Path(__file__).parents[2] / "api_schema/openapi.v1.json"


def bodies_in_order() -> dict[str, Any]:
    """The example of each operation that has one for a JSON body, by the operation's name."""
    description = json.loads(DESCRIPTION.read_text(encoding="utf-8"))
    found = {}
    for methods in description["paths"].values():
        for operation in methods.values():
            content = operation.get("requestBody", {}).get("content", {})
            examples = content.get("application/json", {}).get("examples", {})
            for example in list(examples.values())[:1]:
                found[operation["operationId"]] = example["value"]
    return found


BODIES = bodies_in_order()


@schemathesis.hook
def map_case(context: schemathesis.HookContext, case: schemathesis.Case) -> schemathesis.Case:
    """Give most positive cases of a walk a body in order; the same ones each time."""
    if HEARD not in os.environ:
        return case
    name = case.operation.definition.raw["operationId"]
    is_positive = case.meta is not None and case.meta.generation.mode is GenerationMode.POSITIVE
    chance = zlib.crc32(repr(case.body).encode())
    if is_positive and name in BODIES and chance % 4 < MOST_OF_FOUR:
        case.body = BODIES[name]
        case.headers.pop("Idempotency-Key", None)
        case.headers["Prefer"] = WAIT
    return case


@schemathesis.hook
def after_call(
    context: schemathesis.HookContext, case: schemathesis.Case, response: schemathesis.Response
) -> None:
    """Write down what was asked on a walk, and what came of it."""
    if HEARD not in os.environ:
        return
    with Path(os.environ[HEARD]).open("a", encoding="ascii") as heard:
        name = case.operation.definition.raw["operationId"]
        heard.write(f"{name} {response.status_code}\n")


@schemathesis.check
def problem_is_listed(
    context: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case
) -> None:
    """The code of a problem stands in the description of the answer, so that clients expect it."""
    # That a status is described at all is seen to by a check of schemathesis.
    described = case.operation.definition.raw["responses"].get(str(response.status_code))
    is_problem = response.headers.get("content-type", [""])[0].startswith(PROBLEM_JSON)
    if described is None or not is_problem:
        return
    code = response.json()["code"]
    listed = described["description"].partition(": ")[2].split(", ")
    assert code in listed, f"{code} is not among the problems of the answer: {listed}"
