"""Each boundary of the schema and its neighbours, put into each field of a request.

    python -m tests.service.sweep_fields

puts them into a request that says everything and into one that is solved, posts all of them to
`/v1/requirements`, and solves those that are accepted. It prints what fails, and the count.
"""

from __future__ import annotations

import copy
import json
import re
import sys
from collections.abc import Callable, Iterator
from itertools import chain
from pathlib import Path
from typing import Any

from api_schema.quantities import DIMENSIONS
from service.app import create_app
from service.errors import RequestFaults
from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.settings import Settings
from service.translate.read.requests import read_plan_request
from service.translate.write.requirements import write_requirements
from service.translation import TRANSLATION
from solver.checker import check_request
from solver.rulebook import RULES

Document = dict[str, Any]
Place = tuple[str | int, ...]

_QUANTITY = re.compile(r"^-?[0-9.]+ (\S+)$")
_NUMBERS = ("0", "0.000001", "0.5", "1", "20", "100", "5000", "999999999", "999999999.999999")
_SIGNED = ("-0.000001", "-40", "-273.15", "-273.150001", "-273.16", "-5000", "-999999999")
_WHOLE = (-1, 0, 1, 2, 12, 13, 40, 41, 50, 60, 61, 100, 101, 200, 201, 1000, 1001, 20000, 20001)
_ENERGIES = (14999, 15000, 15001)
_FRACTIONS = (-0.001, 0, 0.001, 0.6, 0.601, 1, 5, 5.001, 1e9)


def leaves(value: object, place: Place = ()) -> Iterator[tuple[Place, object]]:
    """Each number and quantity in a document with the way to it."""
    if isinstance(value, dict):
        for name, part in value.items():
            yield from leaves(part, (*place, name))
    elif isinstance(value, list):
        for index, part in enumerate(value):
            yield from leaves(part, (*place, index))
    elif type(value) in {int, float} or (isinstance(value, str) and _QUANTITY.match(value)):
        yield place, value


def boundaries(place: Place, value: object) -> Iterator[object]:
    """What to put there instead: the ends of what can be written, and their neighbours."""
    if len(place) > 1 and place[-2] == "numbers":
        setting = next(s for r in RULES for s in r.settings if s.name == place[-1])
        yield from (setting.least, setting.most, setting.least - 1, setting.most + 1)
    elif isinstance(value, str):
        unit = value.partition(" ")[2]
        dimension = next(d for d in DIMENSIONS if unit in d.units)
        numbers = chain(_NUMBERS, _SIGNED if dimension.signed else ("-1",))
        yield from (f"{number} {unit}" for number in numbers)
    elif isinstance(value, int):
        yield from _WHOLE
        if "energy" in str(place[-1]):
            yield from _ENERGIES
    else:
        yield from _FRACTIONS


def with_value(document: Document, place: Place, value: object) -> Document:
    """The document with another value at a place."""
    changed = copy.deepcopy(document)
    part: Any = changed
    for step in place[:-1]:
        part = part[step]
    part[place[-1]] = value
    return changed


def sweep(document: Document) -> Iterator[tuple[str, Document]]:
    """Every document with one value changed, and what was changed."""
    for place, value in leaves(document):
        for other in boundaries(place, value):
            name = "/" + "/".join(map(str, place))
            yield f"{name} = {other!r}", with_value(document, place, other)


def accepted(document: Document) -> bool:
    """Whether a request is taken; what is taken has its needs stated and its rules asked."""
    try:
        read = read_plan_request(document)
    except RequestFaults:
        return False
    json.dumps(write_requirements(read).model_dump(mode="json"), allow_nan=False)
    check_request(read.problem)
    return True


def outcome_of(document: Document, seconds: float = 3.0) -> str:
    """What comes of planning a request that is taken."""
    body = json.dumps(document).encode()
    limits = JobLimits(wall_seconds=seconds, memory_bytes=4 << 30)
    return str(json.loads(solve_document(body, limits, SILENT))["outcome"])


def failures(
    documents: Iterator[tuple[str, Document]], ask: Callable[[Document], object]
) -> tuple[list[str], int]:
    """What raised or came out as failed, and how many were asked."""
    failed, count = [], 0
    for name, document in documents:
        count += 1
        try:
            answer = ask(document)
        except Exception as error:  # noqa: BLE001 - whatever it is, a caller would see 500
            failed.append(f"{name}: {type(error).__name__}: {error}")
            continue
        if answer == "failed":
            failed.append(f"{name}: failed")
    return failed, count


def main() -> int:
    """The long form: all of it over HTTP, and what is accepted solved."""
    from fastapi.testclient import TestClient  # noqa: PLC0415 - for this command alone

    from tests.service.one_night_out import REQUEST  # noqa: PLC0415
    from tests.service.translate.read.test_every_field import told_in_full  # noqa: PLC0415

    failed: list[str] = []
    asked = taken = 0
    settings = Settings(database=Path(sys.argv[1])) if len(sys.argv) > 1 else Settings()
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        for name, document in chain(sweep(told_in_full()), sweep(REQUEST)):
            asked += 1
            status = caller.post("/v1/requirements", json=document).status_code
            if status == 200:
                taken += 1
                told, _ = failures(iter([(name, document)]), outcome_of)
                failed += told
            elif status >= 500:
                failed.append(f"{name}: {status}")
    sys.stdout.write("\n".join([*failed, f"asked {asked}, taken {taken}, failed {len(failed)}\n"]))
    return int(bool(failed))


if __name__ == "__main__":
    sys.exit(main())
