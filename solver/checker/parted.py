"""Whether two parties that parted have together what the expedition had, each thing once.

The followed plan is replayed for the whole expedition and for each party. Where everything that
stood at the moment stands with one of the parties or was said to be left behind, the ledger holds.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from solver.checker.ledger.facts import read_facts
from solver.checker.standing import standing_at_moment
from solver.plan import Finding, Plan
from solver.problem import Problem

RULE = "units_conserved"


def parted_findings(
    whole: Problem,
    parties: Sequence[Problem],
    followed: Plan,
    left_behind: Mapping[tuple[str, str], int],
) -> tuple[Finding, ...]:
    """Units that two parties have between them and the expedition had not, or the other way.

    Of gear each problem has what is left: nothing that its history has lost.
    """
    had = _standing(whole, followed)
    have = Counter(left_behind)
    for party in parties:
        have.update(_standing(party, followed))
    return tuple(
        Finding(
            RULE,
            f"{unit_id} at {place_id}: {had[place_id, unit_id]} stood there when the party "
            f"divided, {have[place_id, unit_id]} are accounted for",
            abs(had[place_id, unit_id] - have[place_id, unit_id]),
            "units",
            (("place", place_id), ("unit", unit_id)),
        )
        for place_id, unit_id in sorted(had.keys() | have.keys())
        if had[place_id, unit_id] != have[place_id, unit_id]
    )


def _standing(problem: Problem, followed: Plan) -> Counter[tuple[str, str]]:
    standing = Counter[tuple[str, str]]()
    for one in standing_at_moment(read_facts(problem), followed):
        standing[one.place_id, one.unit_id] += one.count
    return standing
