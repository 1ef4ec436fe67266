"""What is wrong with a body that is not JSON: the mistake, where it stands, and what to do.

No text repeats what a caller sent. The parser says where it stopped, and what stands there says
which mistake it is. Everything before that place is JSON.
"""

import re
from collections.abc import Callable
from json import JSONDecodeError

EMPTY = "The body is empty at {at}. Send one JSON object, written in braces."
ONLY_WHITE_SPACE = (
    "The body is only white space, up to {at}. Send one JSON object, written in braces."
)
BYTE_ORDER_MARK = (
    "The body begins with a byte order mark at {at}. Save it as UTF-8 without this mark."
)
_WIDE = "The body is in UTF-16 or UTF-32, as the bytes at {at} show. Write it in UTF-8."
_NOT_UTF_8 = (
    "The body is not UTF-8: the byte at {at} does not belong there. It may be written in Latin-1 "
    "or Windows-1252. Write it in UTF-8."
)
_CUT_CHARACTER = (
    "The body ends inside a character at {at}, so it was cut off. Send the whole document."
)
_CUT_TEXT = (
    "The text that begins at {at} has no end. Close it with a double quote, or send the whole "
    "document if it was cut off."
)
_LINE_BREAK = (
    "A line break stands inside a text at {at}. Write it as \\n, or close the text before it with "
    "a double quote."
)
_CONTROL = "A control character stands inside a text at {at}. Write a tab as \\t, any other as \\u."
_ESCAPE = (
    "The backslash at {at} begins nothing that JSON knows. Write \\\\ for a backslash itself. "
    'After one may stand " \\ / b f n r t, or u with four hexadecimal digits.'
)
_TRAILING_COMMA = "A comma stands before a closing bracket at {at}. Take the comma away."
_LONELY_COMMA = (
    "A comma stands at {at} where a name or a value belongs. Take it away, or write that before it."
)
_SINGLE_QUOTE = "A single quote stands at {at}. Write names and texts in double quotes."
_CURLY_QUOTE = (
    "A typographic quote stands at {at}. Write names and texts in straight double quotes."
)
_COMMENT = "A comment begins at {at}. JSON has none, so take it away."
_NO_NUMBER = (
    "A number that is not finite, such as NaN or Infinity, stands at {at}. JSON has none: write "
    "null or leave the field out."
)
_PLAIN_WORD = "The word at {at} is no JSON value. Write true, false or null, in small letters."
_BARE_WORD = "The word at {at} has no quotes. Write names and texts in double quotes."
_NUMBER = (
    "The number at {at} is not written as JSON writes numbers: no plus before it, no zero at its "
    "front, digits on both sides of the point. Write it so."
)
_OTHER_BRACKET = "The closing bracket at {at} is of the other kind. Write {close} here."
_BRACKET_TOO_MANY = "A bracket too many closes at {at}. Take it away, or open it before."
_SECOND_DOCUMENT = "A second document begins at {at}. Send one document in each request."
_MORE = "Something follows the end of the document at {at}. Take it away."
_NO_COMMA = "A comma is missing before what stands at {at}. Write it there."
_NO_COMMA_OR_QUOTE = (
    "A comma is missing before what stands at {at}. Write it there; if a double quote before it "
    'belongs to a text, write that as \\".'
)
_NO_COLON = "A colon is missing at {at}. Write one between a name and its value."
_NO_VALUE = "A value is missing at {at}. Write one, or take the name before it away."
_NO_NAME = "A name is missing at {at}. Write it in double quotes, with a colon and a value."
_ENDS_TOO_EARLY = "The document ends too early, at {at}. Send all of it."
_OPEN_BRACKETS = (
    "The document ends at {at}, but {open} still open. Send all of it, or end it with {close}."
)
_STRANGE = "The character at {at} has no meaning there. Take it away, or write texts in quotes."

_WORD = re.compile(r"[^\W\d]\w*")
_NOT_FINITE = re.compile(r"[-+]?(?:nan|inf(?:inity)?)\b", re.IGNORECASE)
_MEANT_WORD = re.compile(r"(?:true|false|null|none|nil|undefined)\b", re.IGNORECASE)
_CUT_WORD = re.compile(r"-?\w*\Z")
_CONSTANT = re.compile("NaN|-?Infinity")
_BEGINS_A_NUMBER = re.compile("[-+.0-9]")
_CLOSING = {"[": "]", "{": "}"}


def words_for(mistake: str, text: str, at: int, **more: str) -> str:
    """The words of a mistake, its place written as line and column, both from 1."""
    line, column = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
    return mistake.format(at=f"line {line}, column {column}", **more)


def words_for_bytes(body: bytes, error: UnicodeDecodeError | None = None) -> str | None:
    """What is wrong with bytes that are not UTF-8, or are wider characters; None for nothing."""
    if body[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\0" in body[:4]:
        return words_for(_WIDE, "", 0)
    if error is None:
        return None
    before = body[: error.start].decode()
    cut = error.reason == "unexpected end of data"
    return words_for(_CUT_CHARACTER if cut else _NOT_UTF_8, before, len(before))


def words_for_constant(text: str) -> str:
    """Where the first NaN or Infinity of a text stands, which is JSON up to there."""
    at = 0
    masked = text.replace("\\\\", "__").replace('\\"', "__")
    for number, piece in enumerate(masked.split('"')):
        found = _CONSTANT.search(piece) if number % 2 == 0 else None
        if found is not None:
            return words_for(_NO_NUMBER, text, at + found.start())
        at += len(piece) + 1
    return words_for(_NO_NUMBER, text, 0)


def words_for_mistake(text: str, error: JSONDecodeError) -> str:
    """What is wrong where the parser stopped."""
    for begin, words in _BY_MESSAGE:
        if error.msg.startswith(begin):
            return words(text, error.pos)
    return words_for(_STRANGE, text, error.pos)


def _in_text(mistake: str) -> Callable[[str, int], str]:
    return lambda text, at: words_for(mistake, text, at)


def _control(text: str, at: int) -> str:
    return words_for(_LINE_BREAK if text[at : at + 1] in ("\n", "\r") else _CONTROL, text, at)


def _escape(text: str, at: int) -> str:
    if not text[at:].strip("0123456789abcdefABCDEFu\\"):
        return words_for(_ENDS_TOO_EARLY, text, len(text))
    return words_for(_ESCAPE, text, text.rfind("\\", 0, at + 1))


def _after_the_end(text: str, at: int) -> str:
    if text[at] in "]}":
        return words_for(_BRACKET_TOO_MANY, text, at)
    if text[at] in '{["':
        return words_for(_SECOND_DOCUMENT, text, at)
    return _comment(text, at) or words_for(_MORE, text, at)


def _comma(text: str, at: int) -> str:
    before, here = text[at - 1 : at], text[at : at + 1]
    if not here:
        return _cut_off(text)
    if here in "]}":
        return words_for(_OTHER_BRACKET, text, at, close=_open_brackets(text[:at])[:1])
    if before.isdigit() and (here.isalnum() or here in "._"):
        return words_for(_NUMBER, text, at)
    quoted = text[:at].rstrip().endswith('"')
    mistake = _NO_COMMA_OR_QUOTE if quoted and here not in '"{[' else _NO_COMMA
    return _comment(text, at) or words_for(mistake, text, at)


def _colon(text: str, at: int) -> str:
    if at == len(text):
        return _cut_off(text)
    return _comment(text, at) or words_for(_NO_COLON, text, at)


def _name(text: str, at: int) -> str:
    return _value_or_name(text, at) or words_for(
        _BARE_WORD if _WORD.match(text, at) else _NO_NAME, text, at
    )


def _value(text: str, at: int) -> str:
    known = _value_or_name(text, at)
    if known:
        return known
    for pattern, mistake in (
        (_NOT_FINITE, _NO_NUMBER),
        (_MEANT_WORD, _PLAIN_WORD),
        (_WORD, _BARE_WORD),
        (_BEGINS_A_NUMBER, _NUMBER),
    ):
        if pattern.match(text, at):
            return words_for(mistake, text, at)
    return words_for(_NO_VALUE if text[at] in "]}" else _STRANGE, text, at)


def _value_or_name(text: str, at: int) -> str | None:
    """What is wrong where a value or a name must begin, if it is wrong for both."""
    if not text.strip(" \t\n\r"):
        return words_for(ONLY_WHITE_SPACE if text else EMPTY, text, at)
    here, before = text[at : at + 1], text[:at].rstrip()
    if not here or (before and _CUT_WORD.match(text, at)):
        return _cut_off(text)
    if here in "]}" and before.endswith(","):
        return words_for(_TRAILING_COMMA, text, len(before) - 1)
    if here == ",":
        return words_for(_LONELY_COMMA, text, at)
    if here in "'`":
        return words_for(_SINGLE_QUOTE, text, at)
    if here in "\u2018\u2019\u201c\u201d\u201e\u00ab\u00bb":
        return words_for(_CURLY_QUOTE, text, at)
    return _comment(text, at)


def _comment(text: str, at: int) -> str | None:
    begins = text.startswith(("//", "/*", "#"), at)
    return words_for(_COMMENT, text, at) if begins else None


def _cut_off(text: str) -> str:
    close = _open_brackets(text)
    if not close:
        return words_for(_ENDS_TOO_EARLY, text, len(text))
    return words_for(
        _OPEN_BRACKETS,
        text,
        len(text),
        open="1 bracket is" if len(close) == 1 else f"{len(close)} brackets are",
        close=close,
    )


def _open_brackets(text: str) -> str:
    """The closing brackets that a text still needs, the innermost first."""
    bare = text.replace("\\\\", "").replace('\\"', "")
    left = re.sub(r"[^][{}]+", "", "".join(bare.split('"')[::2]))
    before = None
    while left != before:
        before, left = left, left.replace("[]", "").replace("{}", "")
    return "".join(_CLOSING.get(bracket, "") for bracket in reversed(left))


def _trailing_comma(text: str, at: int) -> str:
    return words_for(_TRAILING_COMMA, text, at)


_BY_MESSAGE: tuple[tuple[str, Callable[[str, int], str]], ...] = (
    ("Invalid control character", _control),
    ("Unterminated string", _in_text(_CUT_TEXT)),
    ("Invalid \\", _escape),
    ("Extra data", _after_the_end),
    ("Expecting ','", _comma),
    ("Expecting ':'", _colon),
    ("Illegal trailing comma", _trailing_comma),
    ("Expecting property name", _name),
    ("Expecting value", _value),
)
"""How each message of the parser begins, and who finds the mistake behind it."""
