"""How much processor time a process has had, and whether it waits for more."""

import os
from pathlib import Path

_TICKS_A_SECOND = os.sysconf("SC_CLK_TCK")
_STATE, _USER, _SYSTEM = 0, 11, 12
"""Where these stand in a line of `stat` after the name, which ends with the last bracket."""


def processor_seconds(process: int) -> float | None:
    """What a process has had of processors [s]; None where the system does not tell."""
    try:
        words = _words(Path(f"/proc/{process}/stat"))
        return (int(words[_USER]) + int(words[_SYSTEM])) / _TICKS_A_SECOND
    except (OSError, IndexError):
        return None


def wants_processor(process: int) -> bool:
    """Whether a thread of it runs or waits for a processor, as far as the system tells.

    This costs a look at each thread.
    """
    try:
        threads = list(Path(f"/proc/{process}/task").iterdir())
        return any(_words(thread / "stat")[_STATE] == "R" for thread in threads)
    except (OSError, IndexError):
        return False


def _words(stat: Path) -> list[str]:
    return stat.read_text(encoding="utf-8", errors="replace").rpartition(")")[2].split()
