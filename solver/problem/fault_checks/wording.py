"""Making faults: the shapes that many of them share, and lists of ids in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from solver.errors import ProblemFault

Path = tuple[str | int, ...]

MOST_IDS_LISTED = 12


def listed(ids: Iterable[str]) -> str:
    """Ids in their order, the first dozen of them."""
    distinct = list(dict.fromkeys(ids))
    more = len(distinct) - MOST_IDS_LISTED
    text = ", ".join(distinct[:MOST_IDS_LISTED]) or "none"
    return f"{text} and {more} more" if more > 0 else text


def unknown_id(where: Path, given: str, what: str, known: Iterable[str]) -> ProblemFault:
    """An id that nothing defines."""
    there = tuple(dict.fromkeys(known))
    detail = f"There is no {what} {given}. Known are: {listed(there)}."
    return ProblemFault(where, "unknown_id", detail, what, given, there)


def duplicate_ids(where: Path, field: str, ids: Sequence[str], what: str) -> Iterator[ProblemFault]:
    """A fault for each id that stood earlier in the same list."""
    seen: set[str] = set()
    for index, given in enumerate(ids):
        if given in seen:
            yield ProblemFault(
                (*where, index, field),
                "duplicate_id",
                f"There is another {what} {given}. Give each its own id.",
                what,
            )
        seen.add(given)


def below(where: Path, value: int, least: int, what: str, unit: str) -> Iterator[ProblemFault]:
    """A fault when a number is under the least that it may be."""
    if value < least:
        limit = "more than 0" if least == 1 else f"at least {least}"
        yield ProblemFault(where, "too_small", f"{what} must be {limit}{unit and ' ' + unit}.")
