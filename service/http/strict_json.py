"""Reading JSON text from strangers: one meaning for every document, and a bounded price.

RFC 8259 leaves open what duplicate names, lone surrogates and numbers beyond a double mean, and
readers differ. Such documents are refused here, so that nothing later has to guess.
"""

import json
import math
import re
from itertools import accumulate
from typing import NoReturn

from service.errors import Fault, RequestFaults, ServiceProblem
from service.http.json_mistakes import (
    BYTE_ORDER_MARK,
    words_for,
    words_for_bytes,
    words_for_constant,
    words_for_mistake,
)

DEEPEST_NESTING = 32
MOST_VALUES = 100_000
"""Values of one document that is read in the process that answers callers [1]: what the largest
expedition has, many times over. That process stands still while lists and numbers are read."""
LONGEST_INTEGER_DIGITS = 300

_TYPE_NAMES = {list: "an array", str: "a string", bool: "true or false", type(None): "null"}

_ESCAPED_NUL_OR_SURROGATE = re.compile(rb"\\u(?:0000|[dD][89a-fA-F])")
_ONE_KIND = bytes.maketrans(b"{}", b"[]")
_STEPS = [{ord("["): 1}.get(byte, -1) for byte in range(256)]
_PIECE_BRACKETS = 8192
_NOT_BRACKETS = bytes(set(range(256)) - set(b"[]{}"))
_NEITHER_BRACKET_NOR_QUOTE = _NOT_BRACKETS.replace(b'"', b"")


def read_json_object(body: bytes, *, most_values: int | None = MOST_VALUES) -> dict[str, object]:
    """The JSON object that the body holds; anything else is refused as a problem.

    None as `most_values` is for processes in which nobody else waits, and which may be ended.
    """
    text = _text(body)
    if most_values is not None and has_more_values(body, most_values):
        detail = f"The document has more than {most_values} values, lists and objects included."
        raise ServiceProblem("too_much_work", detail)
    if deepest_nesting(body) > DEEPEST_NESTING:
        _refuse(f"The document is nested deeper than {DEEPEST_NESTING} levels.")
    try:
        document = json.loads(
            text,
            object_pairs_hook=_object_without_duplicates,
            parse_constant=_refuse_constant,
            parse_float=_finite_float,
            parse_int=_bounded_integer,
        )
    except json.JSONDecodeError as error:
        raise ServiceProblem("malformed_json", words_for_mistake(text, error)) from None
    except _ConstantError:
        raise ServiceProblem("malformed_json", words_for_constant(text)) from None
    if _ESCAPED_NUL_OR_SURROGATE.search(body):
        _refuse_bad_characters(document)
    if not isinstance(document, dict):
        found = _TYPE_NAMES.get(type(document), "a number")
        detail = f"The document is {found}; it must be an object, written in braces."
        raise RequestFaults((Fault("", "not_an_object", detail),))
    return document


def has_more_values(body: bytes, most: int) -> bool:
    """Whether a document must have more values than that, found without reading it.

    Outside strings each comma stands before one more member, and each opening bracket begins a
    value. A value comes with at most two strings, its name and itself.
    """
    bare = _without_escapes(body)
    if bare.count(b'"') > 4 * (most + 1):
        return True
    outside = _outside_strings(bare)
    return max(outside.count(b","), outside.count(b"[") + outside.count(b"{")) > most


def deepest_nesting(body: bytes) -> int:
    """Levels of brackets that a parser would have open at once, those inside strings left out.

    A closing bracket too many lowers the count, but no parser goes on after one.
    """
    bare = _without_escapes(body).translate(_ONE_KIND, _NEITHER_BRACKET_NOR_QUOTE)
    # Two quotes with nothing between are a string without brackets, or the end of one string and
    # the beginning of the next: either way they may go.
    brackets = _outside_strings(bare.replace(b'""', b""))
    # Behind twice as many brackets as open, one at the least was closed too many.
    brackets = brackets[: 2 * brackets.count(b"[") + 1]
    # Brackets in pairs lose their innermost level with each turn, most of them in the first ones.
    left, levels, quickly = brackets, 0, True
    while left and quickly:
        before, left, levels = left, left.replace(b"[]", b""), levels + 1
        quickly = 8 * len(left) < 7 * len(before)
    if not left:
        return levels
    return _deepest_of(brackets)


def _deepest_of(brackets: bytes) -> int:
    """Levels of brackets of one kind; in pieces, so that other threads have their turn between."""
    deepest = level = 0
    for begin in range(0, len(brackets), _PIECE_BRACKETS):
        piece = brackets[begin : begin + _PIECE_BRACKETS]
        levels = accumulate(map(_STEPS.__getitem__, piece), initial=level)
        deepest = max(deepest, *levels)
        level += 2 * piece.count(b"[") - len(piece)
    return deepest


def _without_escapes(body: bytes) -> bytes:
    """The body without its escaped quotes, so that each quote begins or ends a string."""
    return body.replace(rb"\\", b"").replace(rb"\"", b"")


def _outside_strings(bare: bytes) -> bytes:
    """What stands outside the strings of a body without escaped quotes."""
    return b"".join(bare.split(b'"')[::2])


def _text(body: bytes) -> str:
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        raise ServiceProblem("malformed_json", words_for_bytes(body, error)) from None
    words = words_for_bytes(body)
    if text.startswith("\ufeff"):
        words = words_for(BYTE_ORDER_MARK, "", 0)
    if words is not None:
        raise ServiceProblem("malformed_json", words)
    return text


def _object_without_duplicates(pairs: list[tuple[str, object]]) -> dict[str, object]:
    members = dict(pairs)
    if len(members) != len(pairs):
        _refuse("An object has the same name twice; each name may stand once.")
    return members


class _ConstantError(Exception):
    """NaN or Infinity, which the parser takes and JSON does not have."""


def _refuse_constant(_: str) -> NoReturn:
    raise _ConstantError


def _finite_float(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        _refuse("A number is too large; numbers must fit a 64-bit float.")
    return number


def _bounded_integer(digits: str) -> int:
    if len(digits) > LONGEST_INTEGER_DIGITS:
        _refuse(f"A number has more than {LONGEST_INTEGER_DIGITS} digits.")
    return int(digits)


def _refuse_bad_characters(value: object) -> None:
    """Refuse NUL and lone surrogates, which escapes can smuggle into any string or name."""
    open_values = [value]
    while open_values:
        part = open_values.pop()
        if isinstance(part, dict):
            open_values.extend(part)
            open_values.extend(part.values())
        elif isinstance(part, list):
            open_values.extend(part)
        elif isinstance(part, str):
            if "\x00" in part:
                _refuse("A string holds the character U+0000, which is not taken.")
            if any("\ud800" <= character <= "\udfff" for character in part):
                _refuse("A string holds half a surrogate pair, which is not a character.")


def _refuse(detail: str) -> NoReturn:
    raise ServiceProblem("unsafe_json", detail)
