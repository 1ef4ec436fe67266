"""What callers send is described otherwise than what they get: closed, and without defaults."""

import json
from typing import Any

_SAID = ("If not given", "Without it", "If you do not give")


def sent_schemas(document: dict[str, Any]) -> set[str]:
    """The names of the schemas that callers send."""
    schemas = document["components"]["schemas"]
    sent: set[str] = set()
    waiting = {
        name
        for path in document["paths"].values()
        for operation in path.values()
        for name in _named(operation.get("requestBody", {}))
    }
    while waiting:
        sent |= waiting
        waiting = {inner for name in waiting for inner in _named(schemas[name])} - sent
    return sent


def open_answers(document: dict[str, Any]) -> None:
    """Let answers have more fields one day: only what is sent to the service is closed."""
    sent = sent_schemas(document)
    for name, schema in document["components"]["schemas"].items():
        if name not in sent:
            schema.pop("additionalProperties", None)


def say_defaults_in_words(document: dict[str, Any]) -> None:
    """Move each default into the description of its field.

    Generators of TypeScript take a field with a default for one that is always there, in what is
    sent, too. A caller would have to write every field.
    """
    for schema in document["components"]["schemas"].values():
        for field in schema.get("properties", {}).values():
            default = field.pop("default", None)
            words = field.get("description", "")
            is_plain = isinstance(default, str | int | float) or (
                isinstance(default, list) and bool(default)
            )
            if is_plain and not any(one in words for one in _SAID):
                field["description"] = (
                    f"{words} If not given, it is `{json.dumps(default)}`.".strip()
                )


def _named(part: object) -> set[str]:
    """The schemas that a part of the description refers to."""
    if isinstance(part, dict):
        own = part.get("$ref")
        names = {own.rpartition("/")[2]} if isinstance(own, str) else set()
        return names.union(*map(_named, part.values()))
    return set().union(*map(_named, part)) if isinstance(part, list) else set()
