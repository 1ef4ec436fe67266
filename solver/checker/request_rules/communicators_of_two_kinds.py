"""Communicators of two kinds: what silences one kind of communicator leaves another.

Kinds of communicator given in the gear >= the least number of kinds; two of them are two units at
least. One whose kind is not given may be the same as another, so it counts as no kind.

Documents: polar-weight, youth-programmes.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.words import counted, listed
from solver.plan import Finding
from solver.problem import Purpose

RULE = "communicators_of_two_kinds"


def communicators_of_two_kinds(facts: Facts) -> Iterator[Finding]:
    """How many independent kinds are missing."""
    needed = facts.problem.rules.whole("least_communicator_kinds")
    listed_ones = listed_items(facts, Purpose.COMMUNICATOR)
    kinds = sorted({i.communicator_kind for i in listed_ones if i.communicator_kind})
    missing = needed - len(kinds)
    if missing <= 0:
        return
    unknown = [item.unit_id for item in listed_ones if not item.communicator_kind]
    shown = f" ({listed(kinds)})" if kinds else ""
    yield Finding(
        RULE,
        f"{counted(len(kinds), 'kind')} of communicator{shown} in the gear, {needed} independent "
        "kinds needed" + (f"; the kind of {listed(unknown)} is not given" if unknown else ""),
        missing,
        "kinds",
        (("purpose", Purpose.COMMUNICATOR.value),),
        (
            "a communicator that works by another network or on another band than the first",
            *(["the kind of each communicator, if they differ already"] if unknown else []),
        ),
    )
