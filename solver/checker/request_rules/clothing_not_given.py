"""Clothing not given: somebody's clothing and sleeping kit cannot be judged.

People of whom no item has the purpose of any clothing or sleeping kit = 0.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.personal import tells_clothing
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "clothing_not_given"


def clothing_not_given(facts: Facts) -> Iterator[Finding]:
    """One word of caution that names everybody whose clothing is not listed."""
    roster = facts.problem.roster
    untold = [p.person_id for p in roster if not tells_clothing(facts, p.person_id)]
    if untold:
        yield Finding(
            RULE,
            f"no clothing and no sleeping kit of {listed(untold)} is listed with its purpose: "
            "whether they have what nights and travel days ask cannot be seen",
            len(untold),
            "people",
            tuple(("person", person_id) for person_id in untold),
            ("sleeping bag, pad, layers, jacket, shells, mitts and eye protection in the gear",),
        )
