"""What of a description would break clients that were generated from an earlier one.

`python -m tests.service.http.compatibility` records the description with each release.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from service.http.sent_schemas import sent_schemas
from service.write_openapi import PUBLISHED

RELEASED = Path(__file__).parent / "released_description.json"
"""What clients rely on of the description that was released last, as `reduced` gives it."""


def breaks(earlier: dict[str, Any], later: dict[str, Any]) -> list[str]:
    """Everything that the later description takes away or newly asks for, in words."""
    sent = sent_schemas(later)
    return [
        *_of_operations(earlier["paths"], later["paths"]),
        *(
            words
            for name, schema in earlier["components"]["schemas"].items()
            for words in _of_schema(
                name, schema, later["components"]["schemas"].get(name), is_sent=name in sent
            )
        ),
    ]


def _of_operations(earlier: dict[str, Any], later: dict[str, Any]) -> Iterator[str]:
    for path, methods in earlier.items():
        for method, operation in methods.items():
            now = later.get(path, {}).get(method)
            if now is None:
                yield f"{method} {path} is gone"
                continue
            if now["operationId"] != operation["operationId"]:
                yield f"{method} {path} has another operationId"
            before = {p["name"] for p in operation.get("parameters", ())}
            for parameter in now.get("parameters", ()):
                if parameter.get("required") and parameter["name"] not in before:
                    yield f"{method} {path} asks for {parameter['name']}"
            for name in before - {p["name"] for p in now.get("parameters", ())}:
                yield f"{method} {path} takes no {name} any more"
            for status in {s for s in operation["responses"] if s < "300"} - set(now["responses"]):
                yield f"{method} {path} never answers {status} any more"


def _of_schema(
    name: str, earlier: dict[str, Any], later: dict[str, Any] | None, *, is_sent: bool
) -> Iterator[str]:
    if later is None:
        yield f"the schema {name} is gone"
        return
    for field in set(earlier.get("properties", ())) - set(later.get("properties", ())):
        yield f"{name}.{field} is gone"
    required, before = set(later.get("required", ())), set(earlier.get("required", ()))
    if is_sent:
        yield from (f"{name}.{field} is required now" for field in required - before)
    else:
        yield from (f"{name}.{field} may be missing now" for field in before - required)
    for choice in set(earlier.get("enum", ())) - set(later.get("enum", ())):
        yield f"{name} has no {choice} any more"


def reduced(document: dict[str, Any]) -> dict[str, Any]:
    """The part of a description that `breaks` compares."""
    schemas = document["components"]["schemas"].items()
    return {
        "paths": {
            path: {
                method: {
                    "operationId": operation["operationId"],
                    "parameters": [
                        {"name": p["name"], "required": p.get("required", False)}
                        for p in operation.get("parameters", ())
                    ],
                    "responses": sorted(operation["responses"]),
                }
                for method, operation in methods.items()
            }
            for path, methods in document["paths"].items()
        },
        "components": {
            "schemas": {
                name: {
                    "properties": sorted(schema.get("properties", ())),
                    "required": sorted(schema.get("required", ())),
                    "enum": schema.get("enum", []),
                }
                for name, schema in schemas
            }
        },
    }


def main() -> None:
    """Record the published description as the released one; done with each release."""
    text = json.dumps(reduced(json.loads(PUBLISHED.read_text(encoding="utf-8"))), indent=1)
    RELEASED.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
