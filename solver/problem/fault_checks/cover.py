"""Whether a stock of whole containers can hold a fuel reserve at each of several places.

Place by place, the program keeps for each number of containers of the first two kinds that are
spent the least number of the third. That is as many states as there are containers of two kinds at
most, never one for each way to share them out.
"""

from __future__ import annotations

from bisect import bisect_right

from solver.quantities import units_up

MOST_KINDS = 3
"""With more kinds than this only the total is compared, which never refuses what would do."""

_MOST_STEPS = 200_000

Spent = dict[tuple[int, int], int]
"""Containers spent of the first two kinds, and the least of the third that goes with them."""


class Effort:
    """The steps that one examination may take; they are spent once, over all of its questions."""

    def __init__(self, steps: int = _MOST_STEPS) -> None:
        self.steps_left = steps

    def take(self, steps: int) -> bool:
        """Take so many steps; False once none is left."""
        self.steps_left -= steps
        return self.steps_left > 0


def can_cover(
    contents_ml: tuple[int, ...],
    counts: tuple[int, ...],
    wanted_ml: tuple[int, ...],
    effort: Effort | None = None,
) -> bool:
    """Whether containers of these contents and counts can be shared out to cover each want [mL].

    One container is at one place, so that each want is met by containers of its own. Without steps
    left the answer is yes, which never refuses what would do.
    """
    wanted = sorted(wanted_ml, reverse=True)
    total_ml = sum(content * count for content, count in zip(contents_ml, counts, strict=True))
    if total_ml < sum(wanted_ml):
        return False
    if not wanted_ml or len(contents_ml) > MOST_KINDS or _is_dealt_out(contents_ml, counts, wanted):
        return True
    effort = effort or Effort()
    missing = MOST_KINDS - len(contents_ml)
    contents = (*contents_ml, *(1,) * missing)
    most = (*counts, *(0,) * missing)
    spent: Spent = {(0, 0): 0}
    for want_ml in wanted:
        spent = _least(_spend(spent, contents, most, want_ml, effort))
        if effort.steps_left <= 0:
            return True
    return bool(spent)


def _is_dealt_out(
    contents_ml: tuple[int, ...], counts: tuple[int, ...], wanted_ml: list[int]
) -> bool:
    """Whether it is enough to deal out the first kind to want after want, then the next kinds.

    That is so of nearly every request, and quickly seen. Where it is not, another way may be.
    """
    left = list(counts)
    for want_ml in wanted_ml:
        open_ml = want_ml
        for kind, content_ml in enumerate(contents_ml):
            taken = _useful(left[kind], open_ml, content_ml)
            left[kind] -= taken
            open_ml -= taken * content_ml
        if open_ml > 0:
            return False
    return True


def _spend(
    spent: Spent, contents: tuple[int, ...], most: tuple[int, ...], want_ml: int, effort: Effort
) -> Spent:
    """What may be spent once one more want is covered, with no container there for nothing."""
    after: Spent = {}
    for (first, second), third in spent.items():
        for more_first in range(_useful(most[0] - first, want_ml, contents[0]) + 1):
            left_ml = want_ml - more_first * contents[0]
            useful = _useful(most[1] - second, left_ml, contents[1])
            if not effort.take(useful + 1):
                return after
            for more_second in range(useful + 1):
                rest_ml = max(0, left_ml - more_second * contents[1])
                total = third + units_up(amount=rest_ml, per_unit=contents[2])
                key = (first + more_first, second + more_second)
                if total <= most[2] and total < after.get(key, total + 1):
                    after[key] = total
    return after


def _useful(left: int, want_ml: int, content_ml: int) -> int:
    """How many containers of a kind a want has use for, of those that are left [1]."""
    return min(left, units_up(amount=max(0, want_ml), per_unit=content_ml))


def _least(spent: Spent) -> Spent:
    """What is spent, without the states that spend no less of anything than another one."""
    kept: Spent = {}
    # A staircase: the more is spent of the second kind, the less of the third.
    seconds: list[int] = []
    thirds: list[int] = []
    for (first, second), third in sorted(spent.items()):
        place = bisect_right(seconds, second)
        if place and thirds[place - 1] <= third:
            continue
        kept[first, second] = third
        at = place - 1 if place and seconds[place - 1] == second else place
        end = at
        while end < len(thirds) and thirds[end] >= third:
            end += 1
        seconds[at:end], thirds[at:end] = [second], [third]
    return kept
