"""Second link: a sled hauled over crevasses hangs on more than one link.

Sleds hauled along legs with crevasse hazard: for each, a second link to the rope or a back-up
tether is to be checked, which no request gives.

Documents: sled-rigging, mountaineering-textbook-8.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.words import counted, listed
from solver.plan import Finding

RULE = "second_link"


def second_link(facts: Facts) -> Iterator[Finding]:
    """One finding for all sleds that are hauled over crevassed legs."""
    crevassed = [t for t in facts.timeline.trips if t.leg.crevasse_hazard is not None]
    hauled = {sled_id for trip in crevassed for sled_id in trip.sled_ids}
    sleds = [s.sled_id for s in facts.problem.sleds if s.sled_id in hauled]
    if sleds:
        yield Finding(
            RULE,
            f"{counted(len(sleds), 'sled')} hauled over crevassed legs ({listed(sleds)}): give "
            "each a second link, from its tail to the climbing rope or a back-up tether, and "
            "check it before every start",
            len(sleds),
            "sleds",
            tuple(("sled", sled_id) for sled_id in sleds),
        )
