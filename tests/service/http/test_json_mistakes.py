"""A body that is not JSON is refused with the mistake, its place, and what to do."""

import re
from json import JSONDecodeError

import pytest

from service.errors import ServiceProblem
from service.http.json_mistakes import words_for_mistake
from service.http.strict_json import read_json_object

CASES = [
    (b"", 1, 1, "The body is empty", "Send one JSON object"),
    (b" \n\t", 2, 2, "only white space", "Send one JSON object"),
    (b'{"a": 1,}', 1, 8, "A comma stands before a closing bracket", "Take the comma away"),
    (b'{"a": [1,\n]}', 1, 9, "A comma stands before a closing bracket", "Take the comma away"),
    (b'{"a": 1 , }', 1, 9, "A comma stands before a closing bracket", "Take the comma away"),
    (b'{"a": [1,,2]}', 1, 10, "A comma stands", "Take it away"),
    (b"{,}", 1, 2, "A comma stands", "Take it away"),
    (b"{'a': 1}", 1, 2, "A single quote", "double quotes"),
    (b"{\"a\":\n 'b'}", 2, 2, "A single quote", "double quotes"),
    ('{"a": “b”}'.encode(), 1, 7, "A typographic quote", "straight double quotes"),
    (b'{"a": 1, // c\n "b": 2}', 1, 10, "A comment begins", "take it away"),
    (b'{"a": 1 /* c */}', 1, 9, "A comment begins", "take it away"),
    (b"# c\n{}", 1, 1, "A comment begins", "take it away"),
    (b"{} // c", 1, 4, "A comment begins", "take it away"),
    (b'{"a": 1\n "b": 2}', 2, 2, "A comma is missing before", "Write it there"),
    (b'{"a": [1 2]}', 1, 10, "A comma is missing before", "Write it there"),
    (b'{"a": "b "c" d"}', 1, 11, "A comma is missing before", 'write that as \\"'),
    (b'{"a" 1}', 1, 6, "A colon is missing", "Write one between"),
    (b'{"a": [1, 2}', 1, 12, "of the other kind", "Write ] here"),
    (b"{", 1, 2, "1 bracket is still open", "end it with }."),
    (b'{"a": [{"b": 1', 1, 15, "3 brackets are still open", "end it with }]}."),
    (b'{"a]": ["\\"]", ', 1, 16, "2 brackets are still open", "end it with ]}."),
    (b'{"a": 1,\n', 2, 1, "1 bracket is still open", "end it with }."),
    (b'{"a"', 1, 5, "1 bracket is still open", "end it with }."),
    (b'{"a": tru', 1, 10, "1 bracket is still open", "end it with }."),
    (b'{"a": "b', 1, 7, "has no end", "Close it with a double quote"),
    (b'{"a": "\\u00', 1, 12, "ends too early", "Send all of it"),
    (b"{}}", 1, 3, "A bracket too many", "Take it away"),
    (b"{}\n{}", 2, 1, "A second document begins", "Send one document"),
    (b"{};", 1, 3, "Something follows the end", "Take it away"),
    (b'{"NaN": "Infinity \\" NaN",\n "a": NaN}', 2, 7, "not finite", "write null"),
    (b'{"a": [1, -Infinity]}', 1, 11, "not finite", "write null"),
    (b'{"a": nan}', 1, 7, "not finite", "write null"),
    (b'{"a": True}', 1, 7, "is no JSON value", "true, false or null, in small letters"),
    (b'{"a": None}', 1, 7, "is no JSON value", "true, false or null, in small letters"),
    (b'{"a": undefined}', 1, 7, "is no JSON value", "true, false or null, in small letters"),
    (b"{a: 1}", 1, 2, "has no quotes", "double quotes"),
    (b'{"a": b}', 1, 7, "has no quotes", "double quotes"),
    (b"a=1&b=2", 1, 1, "has no quotes", "double quotes"),
    (b'{"a": +1}', 1, 7, "not written as JSON writes numbers", "no plus"),
    (b'{"a": .5}', 1, 7, "not written as JSON writes numbers", "both sides of the point"),
    (b'{"a": 1.}', 1, 8, "not written as JSON writes numbers", "both sides of the point"),
    (b'{"a": 01}', 1, 8, "not written as JSON writes numbers", "no zero at its front"),
    (b'{"a": }', 1, 7, "A value is missing", "Write one"),
    (b'{1: "a"}', 1, 2, "A name is missing", "in double quotes"),
    (b"<a/>", 1, 1, "has no meaning there", "Take it away"),
    (b'{"a": "b\nc"}', 1, 9, "A line break stands inside a text", "Write it as \\n"),
    (b'{"a": "b\tc"}', 1, 9, "A control character stands inside a text", "tab as \\t"),
    (b'{"a": "C:\\data"}', 1, 10, "begins nothing that JSON knows", "Write \\\\ for"),
    (b'{"a": "\\u12"}', 1, 8, "begins nothing that JSON knows", "four hexadecimal digits"),
    ('{"a": 1}'.encode("utf-16"), 1, 1, "UTF-16 or UTF-32", "Write it in UTF-8"),
    ('{"a": 1}'.encode("utf-16-le"), 1, 1, "UTF-16 or UTF-32", "Write it in UTF-8"),
    ('{"a": 1}'.encode("utf-16-be"), 1, 1, "UTF-16 or UTF-32", "Write it in UTF-8"),
    ('{"a": 1}'.encode("utf-32"), 1, 1, "UTF-16 or UTF-32", "Write it in UTF-8"),
    ('{"é":\n "é"}'.encode("latin-1"), 1, 3, "not UTF-8", "Write it in UTF-8"),
    (b'{"a":\n "b\xc3', 2, 4, "ends inside a character", "Send the whole document"),
    (b"\xef\xbb\xbf{}", 1, 1, "a byte order mark", "UTF-8 without"),
]


@pytest.mark.parametrize(("body", "line", "column", "what", "advice"), CASES)
def test_each_usual_mistake_is_told_with_its_place(body, line, column, what, advice):
    """The detail names the mistake, its line and column, and what to do, in words of our own."""
    with pytest.raises(ServiceProblem) as refused:
        read_json_object(body)
    problem = refused.value
    assert problem.code == "malformed_json"
    assert re.findall(r"line (\d+), column (\d+)", problem.detail) == [(str(line), str(column))]
    assert what in problem.detail
    assert advice in problem.detail
    assert "Expecting" not in problem.detail
    assert problem.detail.endswith(".")


def test_no_text_repeats_what_was_sent():
    """The details of all cases stay the same when the letters of a body are others."""
    for body, *_ in CASES:
        if b"\\" in body or not body.isascii() or b"b" not in body or b"\0" in body:
            continue
        details = set()
        for letter in (b"b", b"z"):
            with pytest.raises(ServiceProblem) as refused:
                read_json_object(body.replace(b"b", letter))
            details.add(refused.value.detail)
        assert len(details) == 1


def test_a_message_that_nobody_knows_still_has_its_place():
    """A later parser may say other things; the place is told all the same."""
    words = words_for_mistake('{"a": !}', JSONDecodeError("Something new", '{"a": !}', 6))
    assert "line 1, column 7" in words


def test_the_comma_is_found_where_a_later_parser_stops():
    """Python 3.13 stops at a trailing comma itself."""
    error = JSONDecodeError("Illegal trailing comma before end of object", '{"a": 1,}', 7)
    assert words_for_mistake('{"a": 1,}', error).startswith("A comma stands before a closing")
