"""Whether a caller takes an answer fast enough; one that is not taken stays in the memory."""

MOST_PAUSES = 20
"""An answer is taken within so many pauses, whatever its size [1]."""


class Reading:
    """How one caller reads: in each pause at least a twentieth of the answer is to be taken.

    So a trickle of single bytes holds no answer, and a small one may come over a slow line.
    """

    def __init__(self, pause_seconds: float, *, now: float) -> None:
        self._pause_seconds = pause_seconds
        self._since = now
        self._unsent_then = 0
        self._most_unsent = 0

    def is_too_slow(self, unsent_bytes: int, *, now: float) -> bool:
        """Whether too little was taken for longer than a pause, at a look now [byte, s]."""
        self._most_unsent = max(self._most_unsent, unsent_bytes) if unsent_bytes else 0
        # What was added meanwhile counts as if it had been there from the start.
        self._unsent_then = max(self._unsent_then, unsent_bytes)
        taken_bytes = self._unsent_then - unsent_bytes
        if taken_bytes * MOST_PAUSES >= self._most_unsent:
            self._since, self._unsent_then = now, unsent_bytes
        return now - self._since > self._pause_seconds
