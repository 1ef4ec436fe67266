"""The figures of plans that will not change, so that their outcomes are read only once."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable

from api_schema.figures_answer import PlanFiguresAnswer

_MOST = 1000


class KeptFigures:
    """Figures by plan, those of the last thousand that were asked for.

    An outcome may have several megabytes and its figures have some lines, and whoever waits for a
    comparison reads it again and again. Whoever asks has found the plan first.
    """

    def __init__(self, most: int = _MOST) -> None:
        self._most = most
        self._lock = threading.Lock()
        self._kept: OrderedDict[str, PlanFiguresAnswer] = OrderedDict()

    def of(
        self, plan_id: str, read: Callable[[], PlanFiguresAnswer | None]
    ) -> PlanFiguresAnswer | None:
        """The figures of a final plan, read where they are not kept; None where it has none."""
        with self._lock:
            if plan_id in self._kept:
                self._kept.move_to_end(plan_id)
                return self._kept[plan_id]
        figures = read()
        if figures is not None:
            with self._lock:
                self._kept[plan_id] = figures
                while len(self._kept) > self._most:
                    self._kept.popitem(last=False)
        return figures
