"""Communicators with voice: far from help, more than one communicator carries voice.

Units of communicators whose kind is given and carries voice >= `least_voice_communicators`. A kind
with one of the words beacon, messenger, text or tracker carries none; a kind that is not given
counts as none. The amount is how many are missing.

Documents: polar-essentials.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose

RULE = "communicators_with_voice"
_SILENT = ("beacon", "messenger", "text", "tracker")


def communicators_with_voice(facts: Facts) -> Iterator[Finding]:
    """How many communicators that carry voice are missing."""
    needed = facts.problem.rules.whole("least_voice_communicators")
    found = sum(
        item.count
        for item in listed_items(facts, Purpose.COMMUNICATOR)
        if item.communicator_kind and _speaks(item.communicator_kind)
    )
    if found < needed:
        yield Finding(
            RULE,
            f"{counted(found, 'communicator')} in the gear is known to carry voice, {needed} are "
            "advised far from help; a beacon or text does not replace the second",
            needed - found,
            "units",
            (("purpose", Purpose.COMMUNICATOR.value),),
            ("one more telephone or radio that reaches help, or the kind of each, if it is voice",),
        )


def _speaks(kind: str) -> bool:
    return not any(word in kind.lower() for word in _SILENT)
