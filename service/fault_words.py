"""What is wrong with a value, and what to write instead: the same in a body and in a parameter."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Words = Callable[[Mapping[str, Any]], str]

WORDS: Mapping[str, tuple[str, Words]] = {
    "missing": ("missing", lambda _: "This is required and missing."),
    "extra_forbidden": (
        "unknown_field",
        lambda c: f"There is no such field. {c['advice']}",
    ),
    "string_type": ("wrong_type", lambda _: "Write a string, in quotes."),
    "string_too_short": (
        "too_short",
        lambda c: f"This is too short. Its least length is {c['min_length']}.",
    ),
    "string_too_long": ("too_long", lambda c: f"Write at most {c['max_length']} characters."),
    "string_pattern_mismatch": (
        "bad_id",
        lambda _: (
            "An id has 1 to 64 characters: letters, digits, dot, hyphen and underscore, "
            "beginning with a letter or digit."
        ),
    ),
    "bool_type": ("wrong_type", lambda _: "Write true or false, without quotes."),
    "list_type": ("wrong_type", lambda _: "Write a list, in square brackets."),
    "dict_type": ("wrong_type", lambda _: "Write an object, in braces."),
    "model_type": ("wrong_type", lambda _: "Write an object, in braces."),
    "model_attributes_type": ("wrong_type", lambda _: "Write an object, in braces."),
    "too_short": ("too_few", lambda c: f"Give at least {c['min_length']} of these."),
    "too_long": ("too_many", lambda c: f"Give at most {c['max_length']} of these."),
    "greater_than_equal": ("too_small", lambda c: f"Write a number of at least {c['ge']}."),
    "less_than_equal": ("too_large", lambda c: f"Write a number of at most {c['le']}."),
    "literal_error": ("not_a_choice", lambda c: f"Write one of {c['expected']}."),
}
"""Our code for each of Pydantic's, and the words, which are made of its figures."""
