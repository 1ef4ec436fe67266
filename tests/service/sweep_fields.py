"""Each boundary of the schema and its neighbours, put into each field of a request.

    python -m tests.service.sweep_fields DATABASE [RECORD [1/2]]

puts them into a request that says everything and into one that is solved, posts all of them to
`/v1/requirements`, and solves those that are accepted. It prints what fails, and the count. What
stands in the record, a file that it writes, is not asked again; `1/2` asks the first of two shares.
"""

from __future__ import annotations

import copy
import json
import re
import sys
import time
from collections.abc import Callable, Container, Iterator
from itertools import chain
from pathlib import Path
from typing import Any

from fastapi.testclient import TestClient

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
from tests.service.wire_fields import ends

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


def in_full() -> Document:
    """A request in which every number and quantity of the schema stands, and every setting."""
    from tests.service.translate.read.test_every_field import told_in_full  # noqa: PLC0415

    document = told_in_full()
    modes = ("sled", "pack", "fixed_rope", "summit")
    document["roster"][0]["pack_caps"] = {
        f"{mode}_{way}": "28 kg" for mode in modes for way in ("outbound", "homeward")
    }
    document["roster"][0]["pack_volume"] = "90 L"
    item = {"item_id": "more", "mass": "1 kg", "volume": "2 L", "needed": "every_night"}
    document["roster"][0]["extra_items"] += [
        item | {"count": 2, "purpose": "cold_clothing", "needed_below": "-30 degC"},
        item | {"item_id": "own-tent", "purpose": "shelter", "shelter_places": 1, "length": "1 m"},
        item
        | {"item_id": "own-bin", "purpose": "human_waste_container", "capacity": "8 L"}
        | {"spoils_below": "-40 degC"},
    ]
    part = {"part_id": "half", "mass": "1 kg", "volume": "2 L"}
    document["gear"] += [
        {"item_id": "whole", "needed": "every_night", "parts": [part, part | {"part_id": "rest"}]},
        item
        | {"item_id": "marks", "count": 4, "needed": "at_place", "up_to": "camp-1"}
        | {"left_at": {"camp-1": 2}},
    ]
    night_set = document["menu"]["night_sets"][0]
    night_set |= {"from_elevation": "0 m", "below_elevation": "9000 m"}
    document["options"] = {"time_limit": "20 s", "workers": 1, "seed": 1}
    document["options"]["light_trips_up_to"] = "50 %"
    document["options"]["near_plan"] = {"tolerance": "5 %", "trips": [_first_trip(document)]}
    trip = _first_trip(document)
    there = {"day": trip["day"], "place": trip["to"], "units": trip["loads"][0]["pack"]}
    document["options"]["start_plan"] = {"plan": {"trips": [trip], "stock": [there]}}
    document["rules"]["numbers"] = {s.name: s.value for r in RULES for s in r.settings}
    return document


def _first_trip(document: Document) -> Document:
    """The first trip of a former plan of a request, with one thing in one pack."""
    days = enumerate(document["calendar"], start=1)
    number, places = next((n, d) for n, d in days if isinstance(d, list) and len(d) > 1)
    unit = {"unit_id": "rope", "count": 1, "each_kg": 3.0, "each_l": 7.0}
    load = {"person_id": document["roster"][0]["person_id"], "pack": [unit]}
    load |= {"water_kg": 2.0, "lunch_kg": 0.3}
    return {"day": number, "step": 1, "from": places[0], "to": places[1], "loads": [load]}


def boundaries(place: Place, value: object) -> Iterator[object]:
    """What to put there instead: the ends of what can be written, and their neighbours."""
    if len(place) > 1 and place[-2] == "numbers":
        setting = next(s for r in RULES for s in r.settings if s.name == place[-1])
        yield from (setting.least, setting.most, setting.least - 1, setting.most + 1)
        return
    yield from ends(place, value)
    if isinstance(value, str):
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


def sweep(
    document: Document, places: Container[Place] | None = None
) -> Iterator[tuple[str, Document]]:
    """Every document with one value changed, at some places or all, and what was changed."""
    for place, value in leaves(document):
        if places is not None and place not in places:
            continue
        for other in dict.fromkeys(boundaries(place, value)):
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


def on_record(path: Path) -> dict[str, str]:
    """What was asked before, each with what came of it."""
    lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    return dict(json.loads(line) for line in lines if line.endswith("]"))


def _status(caller: TestClient, document: Document) -> int:
    """The status of a request's requirements.

    A desk that ran out of time or memory is replaced, and on a machine that is busy the next caller
    may be asked to come again; whoever does so is answered.
    """
    for _ in range(5):
        answer = caller.post("/v1/requirements", json=document)
        if answer.status_code != 503 or answer.json()["code"] != "too_busy":
            break
        time.sleep(int(answer.headers["Retry-After"]))
    return int(answer.status_code)


def main(arguments: list[str]) -> int:
    """The long form: all of it over HTTP, and what is accepted solved."""
    from tests.service.one_night_out import REQUEST  # noqa: PLC0415

    database, record, share = (*arguments, "", "")[:3] if arguments else ("", "", "")
    settings = Settings(database=Path(database)) if database else Settings()
    which, of = map(int, (share or "1/1").split("/"))
    path = Path(record or "sweep-fields.jsonl")
    came = on_record(path)
    documents = [
        (f"{part}{name}", document)
        for part, asked in (("full ", in_full()), ("one night ", REQUEST))
        for name, document in sweep(asked)
    ]
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        for name, document in documents[which - 1 :: of]:
            if name in came:
                continue
            status = _status(caller, document)
            came[name] = "refused" if status < 500 else str(status)
            if status == 200:
                told, _ = failures(iter([(name, document)]), outcome_of)
                came[name] = told[0] if told else "taken"
            with path.open("a", encoding="utf-8") as file:
                file.write(json.dumps([name, came[name]]) + "\n")
    failed = [f"{name}: {end}" for name, end in came.items() if end not in {"refused", "taken"}]
    taken = sum(end == "taken" for end in came.values())
    sys.stdout.write(
        "\n".join([*failed, f"asked {len(came)}, taken {taken}, failed {len(failed)}\n"])
    )
    return int(bool(failed))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
