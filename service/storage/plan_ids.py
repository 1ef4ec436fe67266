"""Names of plans: sortable by the time they were made, and impossible to guess."""

import re
import secrets
import time

from api_schema.plan_resource import PLAN_ID_PATTERN

_ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
_TIME_LETTERS = 10
_CHANCE_LETTERS = 16

_PLAN_ID = re.compile(PLAN_ID_PATTERN, re.ASCII)


def new_plan_id(kind: str = "plan") -> str:
    """A fresh id of a kind: milliseconds since 1970, then 80 bits of chance, in base 32."""
    milliseconds = time.time_ns() // 1_000_000
    chance = secrets.randbits(5 * _CHANCE_LETTERS)
    return f"{kind}_{_base32(milliseconds, _TIME_LETTERS)}{_base32(chance, _CHANCE_LETTERS)}"


def code_of(plan_id: str) -> str:
    """The short code of a plan for messages: its last four characters, in capitals."""
    return plan_id[-4:].upper()


def is_plan_id(text: str) -> bool:
    """Whether the text could be the name of a plan."""
    return _PLAN_ID.fullmatch(text) is not None


def _base32(number: int, letters: int) -> str:
    return "".join(_ALPHABET[number >> 5 * place & 31] for place in reversed(range(letters)))
