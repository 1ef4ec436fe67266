"""The code of short messages as one page to be printed: groups, meanings, how to check by eye."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from service.messages.groups import (
    ANSWER_GROUPS,
    ANSWER_HEAD,
    CLOSING_KEY,
    STATE_GROUPS,
    STATE_HEAD,
    GroupKind,
    Part,
)
from service.messages.text import MOST_CHARACTERS, Group, Message, write_message
from service.reports.page import page

EXAMPLE = Message(
    is_answer=False,
    plan_code="7Q4M",
    groups=(
        Group("when", {"day": 6, "moment": "E"}),
        Group("place", {"place": 3}),
        Group("people", {"people": 6}),
        Group("night_sets", {"kind": 1, "sets": 14}),
        Group("fuel", {"decilitres": 95}),
        Group("storm_nights", {"nights": 3}),
    ),
)
"""A state as the page shows it."""


def messages_page() -> str:
    """The page, without scripts, one sheet on paper."""
    body = [
        "<h1>Messages of at most 140 characters</h1>",
        f"<p>Example: <code>{write_message(EXAMPLE)}</code></p>",
        "<ul>",
        f"<li>Only A to Z, 0 to 9, blanks and *. At most {MOST_CHARACTERS} characters.</li>",
        "<li>A group is a letter, its value, and one check character. Blanks separate groups.</li>",
        f"<li>The last group is {CLOSING_KEY} with two check characters over all of it.</li>",
        (
            "<li>The service writes the check characters. A message with a wrong one is refused, "
            "with the group that is in doubt. Nothing is repaired by guessing: ask again.</li>"
        ),
        (
            "<li>Numbers of places, people, sleds and night sets are those of "
            "<code>GET /v1/plans/{plan_id}/message-key</code>. Print them before you leave.</li>"
        ),
        (
            "<li>A message gives no medical advice. If somebody is hurt, call rescue services and "
            "ask a physician. The people on the spot decide.</li>"
        ),
        "</ul>",
        "<h2>What a party sends</h2>",
        _table((STATE_HEAD, *STATE_GROUPS)),
        "<h2>What comes back</h2>",
        _table((ANSWER_HEAD, *ANSWER_GROUPS)),
    ]
    return page("messages", "\n".join(body))


def _table(kinds: Sequence[GroupKind]) -> str:
    rows = "".join(
        f"<tr><td><code>{kind.key}</code></td>"
        f"<td>{escape(' then '.join(map(_part, kind.parts)))}</td>"
        f"<td>{escape(kind.meaning)}</td></tr>\n"
        for kind in kinds
    )
    return f"<table>\n<tr><th>letter</th><th>value</th><th>meaning</th></tr>\n{rows}</table>"


def _part(part: Part) -> str:
    """How one part of a value is written."""
    digits = "1 digit" if part.width == 1 else f"{part.width} digits"
    if part.is_number:
        return digits
    if part.letters == "*":
        return f"{part.width} letters or digits"
    return " or ".join(part.letters)
