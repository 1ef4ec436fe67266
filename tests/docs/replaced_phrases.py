"""Phrases that public text no longer uses, each with what it says instead.

Phrases rather than words: "trip" and "height" are right words in their place. A phrase is a regular
expression. Case does not count, and a space stands for any white space.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Replaced(NamedTuple):
    """A phrase, what is written instead, and an example in which the phrase is found."""

    pattern: str
    instead: str
    example: str


REPLACED: tuple[Replaced, ...] = (
    Replaced(r"height gained", "ascent", "mass times height gained"),
    Replaced(r"mass (?:times|x|×) height", "mass times ascent", "mass x height"),
    Replaced(r"sleeping height", "sleeping elevation", "the sleeping height rises"),
    Replaced(r"height bands?\b", "elevation band", "the factor of the height band"),
    Replaced(r"height above sea level", "elevation above sea level", "Height above sea level."),
    Replaced(r"\boutward\b", "outbound", "a leg written outward"),
    Replaced(r"going out\b", "outbound", "metres climbed going out"),
    Replaced(r"coming back", "homeward", "the same coming back"),
    Replaced(r"(?:whole|guided|long|entire) trip\b", "expedition", "on a guided trip"),
    Replaced(r"\b(?:what|that) (?:a|the) trip needs", "expedition", "what a trip needs"),
    Replaced(r"the trip (?:starts|began|begins|ends)", "expedition", "where the trip starts"),
    Replaced(r"(?:start|end|days?) of (?:a|the) trip", "expedition", "the start of the trip"),
    Replaced(r"no plan (?:is|can be|has one) below", "lower bound", "no plan is below 92 %"),
    Replaced(r"pack(?:ed|ing) by hand", "hand-packing heuristic", "packed by hand found no plan"),
    Replaced(r"\b(?:is|are|was|were|be|been|not|nobody|each) told\b", "given", "what is not told"),
    Replaced(r"\btells? (?:its|no|their)\b", "gives", "a leg tells its hours"),
    Replaced(r"words? of caution", "a caution, or an advisory", "a word of caution"),
    Replaced(r"\bas (?:a caution|cautions)\b", "waived", "stated as a caution"),
    Replaced(
        r"preferences that forbid nothing", "preferences not met", "Preferences that forbid nothing"
    ),
    Replaced(r"(?:preferences|preference that is) not kept", "not met", "preferences not kept"),
    Replaced(r"\bwere any one\b", "if any one", "Were any one cache lost"),
    Replaced(
        r"\b(?:hours|metres|minutes) (?:up|down)\b", "hours outbound", "the hours up of a leg"
    ),
    Replaced(r"(?:written|walked|led) (?:up|down)\b", "outbound, homeward", "a leg written up"),
    Replaced(r"\bflights? out\b", "fly-in, fly-out", "fewer flights out"),
    Replaced(r"\b(?:air|inbound|return) flights?\b", "fly-in, fly-out", "the return flight"),
    Replaced(r"(?:kept|stated|shown) as cautions?", "advisory, or waived", "kept as cautions"),
    Replaced(
        r"(?:preferences?|hard rules?)(?:,| and| or) cautions?\b",
        "advisory",
        "preferences or cautions",
    ),
    Replaced(r"(?:soft|firm|hard) cautions?\b", "advisory", "a soft caution"),
    Replaced(r"cautions? of the check\b", "advisory", "each caution of the check"),
    Replaced(r"height of (?:a|the|each) (?:place|camp|leg)", "elevation", "the height of a place"),
    Replaced(
        r"loads of the way (?:up|down|out|back)", "homeward loads", "in the loads of the way down"
    ),
    Replaced(r"\bunguarded\b", "a cache", "any one unguarded store"),
    Replaced(r"not (?:been )?judged", "not checked", "so it has not been judged"),
    Replaced(r"\breckon", "compute, estimate, or assume", "the fuel is reckoned"),
    Replaced(r"(?:^|[.\"] )left out,", "if not given,", "Its name. Left out, none."),
    Replaced(r"so many (?:nights|hours|days|people|clients|pairs)", "this many", "so many nights"),
    Replaced(r"held by structure", "built in", "Held by structure: bags"),
    Replaced(r"shares no code", "what is shared, by name", "a checker that shares no code"),
    Replaced(r"the one who is ill", "the ill person", "with the one who is ill"),
    Replaced(r"in the mean\b", "on average", "a night in the mean"),
    Replaced(r"\btold at once", "listed at once", "every fault told at once"),
    Replaced(r"not planned for", "what is planned instead", "two haulers are not planned for"),
    Replaced(r"sleep nowhere", "no stove at a camp", "stoves sleep nowhere so cold"),
    Replaced(r"what is no rule\b", "practices without a rule", "and what is no rule"),
    Replaced(r"booking 4711", "booking 1001", "booking 4711"),
)


def phrases_in(text: str) -> list[str]:
    """Each replaced phrase that a text uses, with what it should say; empty for a good text."""
    plain = " ".join(text.split())
    return [
        f"write {phrase.instead!r} in {plain[max(0, found.start() - 40) : found.end() + 30]!r}"
        for phrase in REPLACED
        for found in re.finditer(phrase.pattern, plain, re.IGNORECASE)
    ]
