"""Clothing not given: a person's clothing and sleeping kit cannot be judged.

People of whom no item has the purpose of any clothing or sleeping kit = 0.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.personal import lists_clothing
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "clothing_not_given"


def clothing_not_given(facts: Facts) -> Iterator[Finding]:
    """One finding that names everybody whose clothing is not listed."""
    roster = facts.problem.roster
    unlisted = [p.person_id for p in roster if not lists_clothing(facts, p.person_id)]
    if unlisted:
        yield Finding(
            RULE,
            f"no clothing and no sleeping kit of {listed(unlisted)} is listed with its purpose: "
            "whether they have what nights and travel days ask cannot be seen",
            len(unlisted),
            "people",
            tuple(("person", person_id) for person_id in unlisted),
            ("sleeping bag, pad, layers, jacket, shells, mitts and eye protection in the gear",),
        )
