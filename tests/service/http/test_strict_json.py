"""Reading JSON from strangers: what is refused, and what that costs at most."""

import time

import pytest

from service.errors import RequestFaults, ServiceProblem
from service.http.strict_json import deepest_nesting, read_json_object


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
