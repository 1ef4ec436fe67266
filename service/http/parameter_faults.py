"""Faults of parameters, told with the codes and words of faults in bodies."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from api_schema.plan_resource import PLAN_ID_PATTERN
from api_schema.strict import ID_PATTERN
from service.errors import Fault
from service.fault_words import WORDS

KEY_PATTERN = r"^[!-~]{1,255}$"
"""What an Idempotency-Key may be."""

_WHOLE = frozenset({"int_parsing", "int_from_float", "int_type"})
_GIVEN = "Write this as the service gave it, or leave it out."
_BY_PATTERN = {
    PLAN_ID_PATTERN: "The id of a plan is plan_ and 26 letters and digits, as the service gave it.",
    KEY_PATTERN: "Write 1 to 255 letters, digits and signs of ASCII, without spaces.",
}
_OWN = frozenset({"not_a_date_and_time"})
"""Codes of the parameters' own readers, which come with their words."""


def parameter_fault(details: Mapping[str, Any]) -> Fault:
    """One of Pydantic's errors in our words."""
    _, parameter, *_ = details["loc"]
    code, words = _told(details["type"], details.get("ctx", {}), details["msg"])
    return Fault("", code, words, parameter=str(parameter))


def _told(code: str, context: Mapping[str, Any], message: str) -> tuple[str, str]:
    if code in _OWN:
        return code, message
    if code in _WHOLE:
        return "not_whole", "Write a whole number."
    if code == "string_pattern_mismatch" and context["pattern"] != ID_PATTERN:
        return "bad_id", _BY_PATTERN.get(context["pattern"], _GIVEN)
    if code in WORDS:
        ours, words = WORDS[code]
        return ours, words(context)
    return "invalid", "This does not match the published description."
