"""One run of HiGHS: from arrays, on one thread, from one seed, and stopped when somebody asks.

So that a run repeats itself, its work is limited in steps where the caller gives them; then only
the caller's wish to stop ends it earlier, never the clock.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import Event, Thread

import highspy
import numpy as np

from solver.model.solvers.linear_rows import Floats, Program

_ROWWISE = 2
"""HiGHS's name for a matrix that is given row by row."""

_LOOK_SECONDS, _GRACE_SECONDS = 0.05, 0.2
"""Between two questions whether to stop, and after a yes until HiGHS is left to itself [s]."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How much work a run may do: seconds, and with `steps` steps in their place.

    `steps` are iterations of the simplex method and nodes of the MIP search.
    """

    seconds: float
    steps: tuple[int, int] | None = None
    seed: int = 1
    should_stop: Callable[[], bool] | None = None

    def is_over(self) -> bool:
        """Whether somebody wishes to stop."""
        return self.should_stop is not None and self.should_stop()


class _Quiet(highspy.Highs):
    """HiGHS that says nothing, not even its name when it is made."""

    def enableCallbacks(self) -> None:  # noqa: N802 (theirs; called as soon as it is made)
        """Begin to be asked, in silence."""
        self.setOptionValue("output_flag", False)  # noqa: FBT003 (theirs)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class HighsRun:
    """HiGHS with one program."""

    def __init__(self) -> None:
        self.highs: highspy.Highs = _Quiet()  # type: ignore[no-untyped-call]
        self._wished = Event()
        self._hears = False
        self.set("threads", 1)
        self.set("parallel", "off")
        self.set("solver", "simplex")

    def set(self, option: str, value: float | str) -> None:
        """Set an option of HiGHS; ValueError where it knows none of that name or value."""
        if self.highs.setOptionValue(option, value) == highspy.HighsStatus.kError:
            raise ValueError(f"HiGHS has no option {option} that may be {value}")

    def load(
        self, program: Program, costs: Floats, lower: Floats, upper: Floats, *, with_whole: bool
    ) -> None:
        """Hand the program over; ValueError where a row names a column twice."""
        status = self.highs.passModel(
            program.columns,
            program.rows,
            len(program.value),
            _ROWWISE,
            1,
            0.0,
            costs,
            lower,
            upper,
            program.row_lower,
            program.row_upper,
            program.start[:-1],
            program.index,
            program.value,
            (program.whole if with_whole else np.zeros_like(program.whole)).astype(np.int32),
        )
        if status == highspy.HighsStatus.kError:
            raise ValueError("HiGHS refuses the program: does a row name a column twice?")

    def limit(self, effort: Effort, **steps: int | None) -> None:
        """Set what a run may use; HiGHS counts the time of all runs of one object together."""
        if effort.steps is None:
            self.set("time_limit", self.highs.getRunTime() + max(effort.seconds, 0.05))
        self.set("random_seed", effort.seed)
        for option, most in steps.items():
            if most is not None:
                self.set(option, most)

    def go(self, effort: Effort) -> bool:
        """Run; whether HiGHS came back. Where it did not, this object must not be used any more.

        HiGHS runs in a thread of its own and hears of a stop between two steps. While it simplifies
        a program, up to a second on the largest, it is deaf: then it is left to itself.
        """
        if effort.should_stop is None:
            self.highs.run()
            return True
        self._listen()
        thread = Thread(target=self.highs.run, daemon=True)
        thread.start()
        while thread.is_alive():
            thread.join(_LOOK_SECONDS)
            if effort.should_stop():
                self._wished.set()
                thread.join(_GRACE_SECONDS)
                break
        return not thread.is_alive()

    def _listen(self) -> None:
        """Let HiGHS ask between its steps whether somebody wished it to stop."""
        if self._hears:
            return
        self._hears = True
        wished = self._wished

        def pass_on(event: highspy.HighsCallbackEvent) -> None:
            if wished.is_set():
                event.interrupt()

        self.highs.cbSimplexInterrupt.subscribe(pass_on)
        self.highs.cbMipInterrupt.subscribe(pass_on)
