"""Reading JSON from strangers: what is refused, and what that costs at most."""

import time

import pytest

from service.errors import RequestFaults, ServiceProblem
from service.http import strict_json
from service.http.strict_json import (
    MOST_VALUES,
    deepest_nesting,
    has_more_values,
    read_json_object,
)


def nested(levels: int) -> bytes:
    """An object of so many levels."""
    return b'{"a":' * levels + b"1" + b"}" * levels


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (b"", "malformed_json"),
        (b"{", "malformed_json"),
        (b'{"a": 1} x', "malformed_json"),
        (b'{"a": NaN}', "malformed_json"),
        (b'{"a": -Infinity}', "malformed_json"),
        (b'{"a": "\x00"}', "malformed_json"),
        (b'{"a": "\xff"}', "malformed_json"),
        (b'{"a": "\xed\xa0\x80"}', "malformed_json"),
        (b'\xef\xbb\xbf{"a": 1}', "malformed_json"),
        (b'{"a": 1, "a": 1}', "unsafe_json"),
        (b'{"b": [{"a": 1, "\\u0061": 2}]}', "unsafe_json"),
        (b'{"a": 1e999}', "unsafe_json"),
        (b'{"a": -1e999}', "unsafe_json"),
        (b'{"a": ' + b"9" * 5000 + b"}", "unsafe_json"),
        (b'{"a": "\\u0000"}', "unsafe_json"),
        (b'{"\\u0000": 1}', "unsafe_json"),
        (b'{"a": ["\\ud800"]}', "unsafe_json"),
        (b'{"a": {"\\uDFFF": 1}}', "unsafe_json"),
        (b'{"a": "\\udc00\\ud800"}', "unsafe_json"),
        (nested(33), "unsafe_json"),
    ],
)
def test_documents_with_two_meanings_are_refused(body, code):
    """Each document that is no JSON, or that readers take differently, is refused with its code."""
    with pytest.raises(ServiceProblem) as refusal:
        read_json_object(body)
    assert refusal.value.code == code


@pytest.mark.parametrize("body", [b"[]", b'"a"', b"1", b"1.5", b"true", b"null"])
def test_a_document_that_is_no_object_is_a_fault_not_a_syntax_error(body):
    """JSON other than an object is told as a fault of the whole document."""
    with pytest.raises(RequestFaults) as refusal:
        read_json_object(body)
    assert [(fault.pointer, fault.code) for fault in refusal.value.faults] == [
        ("", "not_an_object")
    ]


def test_nesting_is_taken_up_to_the_limit():
    """A document of exactly 32 levels is read."""
    document = read_json_object(nested(32))
    assert list(document) == ["a"]


def test_a_surrogate_pair_and_an_escaped_letter_are_characters():
    """A whole surrogate pair, escaped, is the one character that it stands for."""
    assert read_json_object(b'{"a": "\\ud834\\udd1e"}') == {"a": "\U0001d11e"}


@pytest.mark.parametrize(
    ("body", "levels"),
    [
        (b"1", 0),
        (b"[]", 1),
        (b'[{"a": []}, []]', 3),
        (b'"[[[["', 0),
        (b'["\\"[[["]', 1),
        (b'["\\\\", [[]]]', 3),
        (b'{"[[": "]]"}', 1),
        (b"[[[[", 4),
        (b'["[[[', 1),
        (b"{[}]", 2),
        (b"][[]", 1),
        (b'[{"a": [[]]}, {}, [{}]]', 4),
        (b"[" * 33 + b"]" * 33, 33),
        (b"[" * 70 + b"]" * 70, 70),
    ],
)
def test_nesting_is_counted_outside_strings(body, levels):
    """Brackets count by how many are open at once; those inside strings do not count."""
    assert deepest_nesting(body) == levels


class Stepped(list[int]):
    """The steps of brackets, and how many were taken."""

    taken = 0

    def __getitem__(self, byte):
        """One more step."""
        self.taken += 1
        return super().__getitem__(byte)


@pytest.mark.parametrize(
    ("body", "levels", "most_steps"),
    [
        (b"{}" + b"]" * 2_000_000, 1, 3),
        (b"]" * 2_000_000, 0, 1),
        (b"[[]" * 100 + b"}" * 2_000_000 + b"]", 101, 401),
        (b"][" * 10_000, 0, 20_000),
        (b"[[]" * 10_000, 10_001, 30_000),
        (b"[" * 9_000 + b"]" * 9_000 + b"]", 9_000, 18_001),
    ],
)
def test_brackets_closed_too_many_are_not_stepped_through(monkeypatch, body, levels, most_steps):
    """The count ends where more were closed than are open in all, however many come behind."""
    steps = Stepped(strict_json._STEPS)
    monkeypatch.setattr(strict_json, "_STEPS", steps)
    assert deepest_nesting(body) == levels
    assert steps.taken <= most_steps


@pytest.mark.parametrize(
    "body",
    [
        b"[" * 100_000,
        b'{"a":' * 100_000,
        b'"' * 2_000_000,
        b'["' + b'\\"' * 1_000_000,
        b"[" * 1_000_000 + b"]" * 1_000_000,
        b'{"a":' + b"9" * 2_000_000 + b"}",
        b'{"a":["' + b"\\u0000" * 300_000 + b'"]}',
    ],
    ids=["deep", "deep-objects", "quotes", "escapes", "balanced", "digits", "nuls"],
)
def test_hostile_documents_are_cheap_to_refuse(body):
    """A document of 2 MB made to be slow is refused within half a second of processor time."""
    begin = time.process_time()
    with pytest.raises(ServiceProblem):
        read_json_object(body)
    assert time.process_time() - begin < 0.5


@pytest.mark.parametrize(
    "unit",
    [b"[],", b"1,", b"[" * 29 + b"]" * 29 + b",", b"{},", b'"",', b'{"a":1},', b'"\\u0041\\n",'],
    ids=["lists", "numbers", "deep", "objects", "strings", "pairs", "escapes"],
)
def test_a_document_of_too_many_values_is_refused_before_it_is_read(unit):
    """2 MB of small values are refused for that, within a tenth of a second of processor time."""
    body = b'{"x":[' + (unit * (2_000_000 // len(unit)))[:-1] + b"]}"
    begin = time.process_time()
    with pytest.raises(ServiceProblem) as refusal:
        read_json_object(body)
    assert time.process_time() - begin < 0.1
    assert refusal.value.code == "too_much_work"


@pytest.mark.parametrize(
    ("body", "values"),
    [
        (b"1", 1),
        (b'{"a": 1, "b": "x,[{"}', 3),
        (b'{"a": "\\",[[", "b": ["\\\\", {}]}', 5),
        (b"[" * 30 + b"]" * 30, 30),
        (b'{"' + b'\\"' * 5_000 + b'": 1}', 2),
        (b'["",' + b'"",' * 5_000 + b'""]', 5_003),
    ],
)
def test_a_document_with_as_many_values_as_allowed_is_taken(body, values):
    """What stands inside strings is no value, and a document is never taken for a larger one."""
    assert not has_more_values(body, values)


@pytest.mark.parametrize("unit", [b"1", b"[]", b'"a,b"', b'{"a": "b"}', b"{}"])
def test_so_many_values_are_read_and_more_are_not(unit):
    """A document of exactly so many values is read; a list of more members than that is not."""

    def listed(number: int) -> bytes:
        return b'{"x": [' + b",".join([unit] * number) + b"]}"

    inner = 1 + unit.startswith(b'{"')
    most = (MOST_VALUES - 2) // inner
    assert len(read_json_object(listed(most))["x"]) == most
    with pytest.raises(ServiceProblem, match="too_much_work"):
        read_json_object(listed(MOST_VALUES + 2))
    read = read_json_object(listed(MOST_VALUES + 2), most_values=None)
    assert len(read["x"]) == MOST_VALUES + 2
