"""The register of rules on the request alone: calendar, people, gear, food and places.

No plan changes what these rules find, so they are asked once, before the search. A hard one
that is broken is a refusal, told in words with what would be allowed instead.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.facts import Facts
from solver.plan import Finding

RequestRule = Callable[[Facts], Iterator[Finding]]

REQUEST_RULES: tuple[tuple[str, RequestRule], ...] = ()
