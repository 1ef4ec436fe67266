"""What a rule and the numbers that it takes are."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.rulebook.documents import Citation

DECISION = "a decision of the leader, after all else:"
"""In front of changes to reserves, which come last and are nobody's to make silently."""


class RuleKind(StrEnum):
    """What breaking a rule means: no plan, a cost, or a word of caution."""

    HARD = "hard"
    PREFERENCE = "preference"
    ADVISORY = "advisory"


class SourceStatus(StrEnum):
    """Where a rule's number comes from."""

    READ = "read in published guidance"
    PRINCIPLE = "principle read in a document, number from common practice"
    PRACTICE = "common practice, no source"
    DERIVED = "follows by arithmetic"
    MEMORY = "from memory, unverified"


@dataclass(frozen=True, slots=True)
class Setting:
    """A number of a rule that a request may change, from `least` to `most`, both allowed.

    The name ends in what the number counts. A `whole` number has no fraction.
    """

    name: str
    value: float
    unit: str
    least: float
    most: float
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule; `sentence` can be tested, `default` is the number it uses where it has one.

    `on_glaciers` rules are asked only where a leg of the route says its crevasse hazard.
    `firm` is why a hard rule cannot be stated as a caution, empty where it can be.
    A `steered` preference counts in the goal of preferences, which the search brings down.
    `instead` are changes of a request that would help where the rule leaves no plan.
    `documents` name where the rule is read, and `departs` why it is laxer or narrower than one.
    """

    rule_id: str
    sentence: str
    unit: str
    kind: RuleKind
    source: SourceStatus
    default: str | None = None
    settings: tuple[Setting, ...] = ()
    on_glaciers: bool = False
    firm: str = ""
    steered: bool = False
    instead: tuple[str, ...] = ()
    documents: tuple[Citation, ...] = ()
    departs: str = ""


@dataclass(frozen=True, slots=True)
class NotARule:
    """A statement of the trade that is no rule of its own, with the reason and what serves it."""

    statement: str
    reason: str
