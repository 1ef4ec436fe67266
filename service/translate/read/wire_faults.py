"""Pydantic's errors in our own words: where, a stable code, what is allowed and what to do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from api_schema import calendar, quantities, roster
from api_schema.named_edit import EDITS_MEMBER, NAMES_OF_EDITS
from service.errors import Fault
from service.fault_words import WORDS, Words
from service.translate.read.known_fields import advice, meant_by
from service.translate.read.near_names import did_you_mean
from service.translate.read.notes import MOST_ADVISED, pointer_to
from service.translate.read.other_addresses import Misplaced, misplaced

_FORM_TAGS = calendar.FORM_TAGS | roster.FORM_TAGS | quantities.FORM_TAGS
KEY = "[key]"

Location = tuple[int | str, ...]

_QUOTED_EDITS = ", ".join(f"'{name}'" for name in NAMES_OF_EDITS)
_AT_THE_TAG = frozenset({"union_tag_not_found", "union_tag_invalid"})
_TAG_MEMBER = "edit"

_MESSAGES: Mapping[str, tuple[str, Words]] = {
    **WORDS,
    "union_tag_not_found": (
        "missing",
        lambda _: f"This is required and missing. Write one of {_QUOTED_EDITS}.",
    ),
    "union_tag_invalid": (
        "not_a_choice",
        lambda c: f"{did_you_mean(c['tag'], NAMES_OF_EDITS)}Write one of {c['expected_tags']}.",
    ),
}

# Codes that the wire's own readers of numbers, dates and quantities give, with their texts.
OWN_CODES = frozenset(
    {
        "no_unit",
        "negative",
        "not_a_quantity",
        "not_a_number",
        "not_whole",
        "not_a_date",
        "not_a_time",
        "not_a_word",
        "not_a_price",
    }
)


def pointer_of(location: tuple[int | str, ...]) -> str:
    """The JSON Pointer of an error; names of the forms that were tried are no part of it."""
    return pointer_to(
        *(
            step
            for number, step in enumerate(location)
            if step not in _FORM_TAGS and step != KEY and not names_an_edit(location, number)
        )
    )


def names_an_edit(location: tuple[int | str, ...], number: int) -> bool:
    """Whether a step says which form of a named edit was tried; `count` is also a field of one."""
    return (
        number >= 2 and location[number - 2] == EDITS_MEMBER and location[number] in NAMES_OF_EDITS
    )


def wire_faults(error: ValidationError, model: type[BaseModel]) -> tuple[Fault, ...]:
    """Every fault that Pydantic saw in a document of a model, in its order.

    The texts repeat nothing of the request.
    """
    errors = error.errors(include_url=False)
    elsewhere = _misplaced(errors, model)
    advised: dict[Location, str] = {(name,): words for name, words in elsewhere.advice.items()}
    renamed = {
        location: name
        for location, name in renamed_fields(errors).items()
        if location not in advised
    }
    given: set[Location] = {(name,) for name in elsewhere.held}
    given |= {(*location[:-1], name) for location, name in renamed.items()}
    advised |= {location: f"Did you mean {name}?" for location, name in renamed.items()}
    return tuple(
        _fault(details, model if index < MOST_ADVISED else None, advised.get(details["loc"]))
        for index, details in enumerate(errors)
        if details["type"] != "missing" or details["loc"] not in given
    )


def _misplaced(errors: Sequence[ErrorDetails], model: type[BaseModel]) -> Misplaced:
    """What the fields at the top say about the whole body: that of another address, or wrapped."""
    top = [details for details in errors if len(details["loc"]) == 1]
    unknown = {
        str(details["loc"][0]): details["input"]
        for details in top
        if details["type"] == "extra_forbidden"
    }
    missing = [str(details["loc"][0]) for details in top if details["type"] == "missing"]
    return misplaced(model, unknown, missing) if unknown else Misplaced()


def renamed_fields(errors: Sequence[ErrorDetails]) -> dict[Location, str]:
    """Unknown fields that stand for a missing one of the same object, by their address."""
    missing: dict[Location, list[str]] = {}
    for details in errors:
        if details["type"] == "missing":
            missing.setdefault(details["loc"][:-1], []).append(str(details["loc"][-1]))
    renamed: dict[Location, str] = {}
    for details in errors:
        if details["type"] != "extra_forbidden":
            continue
        way, name = details["loc"][:-1], str(details["loc"][-1])
        if way not in missing:
            continue
        meant = meant_by(name, missing[way])
        if meant is not None:
            renamed[details["loc"]] = meant
            missing[way].remove(meant)
    return renamed


def _fault(details: ErrorDetails, model: type[BaseModel] | None, advised: str | None) -> Fault:
    code = details["type"]
    pointer = pointer_of(details["loc"]) + (f"/{_TAG_MEMBER}" if code in _AT_THE_TAG else "")
    if code in OWN_CODES:
        return Fault(pointer, code, details["msg"])
    if code in _MESSAGES:
        ours, words = _MESSAGES[code]
        context = details.get("ctx", {})
        if code == "extra_forbidden":
            hint = advice(model, details["loc"]) if model and not advised else ""
            context = {"advice": advised or hint}
        return Fault(pointer, ours, words(context).rstrip())
    return Fault(pointer, "invalid", "This does not match the published schema.")
