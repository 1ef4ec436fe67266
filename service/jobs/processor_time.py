"""How much processor time a process has had, and whether it waits for more."""

import os
from dataclasses import dataclass
from pathlib import Path

_TICKS_A_SECOND = os.sysconf("SC_CLK_TCK")
_STATE, _USER, _SYSTEM = 0, 11, 12
"""Where these stand in a line of `stat` after the name, which ends with the last bracket."""


@dataclass(frozen=True, slots=True)
class ProcessorTime:
    """What a process has had of processors [s], and whether a thread of it could do with more."""

    seconds: float
    wants_more: bool


def processor_time_of(process: int) -> ProcessorTime | None:
    """The processor time of a process; None where the system does not tell, or it is gone."""
    at = Path(f"/proc/{process}")
    try:
        whole = _words(at / "stat")
        states = [_words(thread / "stat")[_STATE] for thread in (at / "task").iterdir()]
    except (OSError, IndexError):
        return None
    ticks = int(whole[_USER]) + int(whole[_SYSTEM])
    return ProcessorTime(ticks / _TICKS_A_SECOND, "R" in states)


def _words(stat: Path) -> list[str]:
    return stat.read_text(encoding="utf-8", errors="replace").rpartition(")")[2].split()
