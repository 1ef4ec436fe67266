"""Names of plans: sortable by the time they were made, and impossible to guess."""

import re
import secrets
import time

from api_schema.plan_resource import PLAN_ID_PATTERN

PLAN, STRESS_TEST = "plan", "stress"
"""The kinds of what stands in the table of plans; the name of each row begins with its kind."""

_ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
_TIME_LETTERS = 10
_CHANCE_LETTERS = 16
_CLOCKS_MS = 86_400_000
"""More than the clock that names plans ever differs from the one that dates them [ms]."""

_PLAN_ID = re.compile(PLAN_ID_PATTERN, re.ASCII)


def new_plan_id(kind: str = PLAN) -> str:
    """A fresh id of a kind: milliseconds since 1970, then 80 bits of chance, in base 32."""
    milliseconds = time.time_ns() // 1_000_000
    chance = secrets.randbits(5 * _CHANCE_LETTERS)
    return f"{kind}_{_base32(milliseconds, _TIME_LETTERS)}{_base32(chance, _CHANCE_LETTERS)}"


def first_plan_id(since_ms: int) -> str:
    """A name below those of all plans that were accepted at a time or later [ms since 1970]."""
    return f"plan_{_base32(max(0, since_ms - _CLOCKS_MS), _TIME_LETTERS)}"


def last_plan_id(before_ms: int | None) -> str:
    """A name above those of all plans that were accepted before a time, or ever [ms since 1970]."""
    if before_ms is None:
        return "plan_" + (_TIME_LETTERS + _CHANCE_LETTERS) * _ALPHABET[-1]
    return f"plan_{_base32(max(0, before_ms) + _CLOCKS_MS, _TIME_LETTERS)}"


def code_of(plan_id: str) -> str:
    """The short code of a plan for messages: its last four characters, in capitals."""
    return plan_id[-4:].upper()


def is_plan_id(text: str) -> bool:
    """Whether the text could be the name of a plan."""
    return _PLAN_ID.fullmatch(text) is not None


def _base32(number: int, letters: int) -> str:
    return "".join(_ALPHABET[number >> 5 * place & 31] for place in reversed(range(letters)))
