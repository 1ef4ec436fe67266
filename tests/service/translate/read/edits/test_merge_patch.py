"""Merge patches: every case of the standard, and where each part was written."""

import copy

import pytest

from service.translate.read.edits.merge_patch import merged
from service.translate.read.edits.nodes import grown, origin_of, plain

# RFC 7396, appendix A: original, patch, result.
APPENDIX = [
    ({"a": "b"}, {"a": "c"}, {"a": "c"}),
    ({"a": "b"}, {"b": "c"}, {"a": "b", "b": "c"}),
    ({"a": "b"}, {"a": None}, {}),
    ({"a": "b", "b": "c"}, {"a": None}, {"b": "c"}),
    ({"a": ["b"]}, {"a": "c"}, {"a": "c"}),
    ({"a": "c"}, {"a": ["b"]}, {"a": ["b"]}),
    ({"a": {"b": "c"}}, {"a": {"b": "d", "c": None}}, {"a": {"b": "d"}}),
    ({"a": [{"b": "c"}]}, {"a": [1]}, {"a": [1]}),
    (["a", "b"], ["c", "d"], ["c", "d"]),
    ({"a": "b"}, ["c"], ["c"]),
    ({"a": "foo"}, None, None),
    ({"a": "foo"}, "bar", "bar"),
    ({"e": None}, {"a": 1}, {"e": None, "a": 1}),
    ([1, 2], {"a": "b", "c": None}, {"a": "b"}),
    ({}, {"a": {"bb": {"ccc": None}}}, {"a": {"bb": {}}}),
]


@pytest.mark.parametrize(("original", "patch", "result"), APPENDIX)
def test_every_case_of_the_standard_comes_out_as_printed(original, patch, result):
    """Each of the fifteen cases of the standard's appendix A gives the result printed there."""
    before = copy.deepcopy((original, patch))
    assert plain(merged(grown(original), patch, "/patch")) == result
    assert (original, patch) == before


def test_each_part_says_who_wrote_it():
    """What the patch wrote is the patch's, what it left alone is the base's, escapes and all."""
    base = grown({"menu": {"a/b": 1, "c": [2, 3]}, "roster": [4]}, "/base")
    root = merged(base, {"menu": {"a/b": 5}, "x": {"y": [6]}}, "/variants/3/patch")
    assert origin_of(root, "/menu/a~1b") == "/variants/3/patch/menu/a~1b"
    assert origin_of(root, "/menu/c/1") == "/base/menu/c/1"
    assert origin_of(root, "/roster/0") == "/base/roster/0"
    assert origin_of(root, "/x/y/0") == "/variants/3/patch/x/y/0"


def test_a_part_that_is_missing_is_placed_beside_its_neighbours():
    """A missing member, and an index that is none, are placed in the nearest part around them."""
    root = grown({"roster": [{"person_id": "lead"}]}, "/base")
    assert origin_of(root, "/roster/0/pack_cap") == "/base/roster/0/pack_cap"
    assert origin_of(root, "/roster/1") == "/base/roster/1"
    assert origin_of(root, "/roster/-1") == "/base/roster/-1"
    assert origin_of(root, "") == "/base"
