"""Whether a stock of whole containers can hold a fuel reserve at each of several places."""

from __future__ import annotations

from functools import lru_cache

from solver.quantities import units_up

MOST_KINDS = 3
"""With more kinds than this only the total is compared, which never refuses what would do."""


@lru_cache(maxsize=4096)
def can_cover(
    contents_ml: tuple[int, ...], counts: tuple[int, ...], wanted_ml: tuple[int, ...]
) -> bool:
    """Whether containers of these contents and counts can be shared out to cover each want [mL].

    One container is at one place, so that each want is met by containers of its own.
    """
    total_ml = sum(content * count for content, count in zip(contents_ml, counts, strict=True))
    if total_ml < sum(wanted_ml):
        return False
    if not wanted_ml or len(contents_ml) > MOST_KINDS:
        return True
    first_ml, rest = wanted_ml[0], wanted_ml[1:]
    return any(
        can_cover(
            contents_ml,
            tuple(count - take for count, take in zip(counts, taken, strict=True)),
            rest,
        )
        for taken in _ways(contents_ml, counts, first_ml)
    )


def _ways(
    contents_ml: tuple[int, ...], counts: tuple[int, ...], wanted_ml: int
) -> list[tuple[int, ...]]:
    """The ways to cover one want in which no container is there for nothing."""
    if wanted_ml <= 0:
        return [(0,) * len(contents_ml)]
    if not contents_ml:
        return []
    most = min(counts[0], units_up(amount=wanted_ml, per_unit=contents_ml[0]))
    return [
        (take, *others)
        for take in range(most + 1)
        for others in _ways(contents_ml[1:], counts[1:], wanted_ml - take * contents_ml[0])
    ]
