"""What a reading of a request takes down besides the problem: faults, assumptions, addresses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from service.errors import Fault
from service.translate.read import quantities
from service.translate.read.defaults import Default
from service.translate.read.near_names import unknown_id_words
from service.translate.read.wire_names import WIRE_FIELDS
from solver.errors import ProblemFault
from solver.quantities import units_up
from solver.rulebook import SourceStatus

Path = tuple[str | int, ...]

MOST_ADVISED = 50
"""Comparing names takes time, and an answer lists no more faults than these."""

_SAME_CAUSE: Mapping[str, frozenset[str]] = {
    "no_night_set": frozenset({"no_night_set", "several_night_sets"}),
}
"""Faults of a whole that say again what a fault of a part has said, by their codes."""

_SHARED = "/personal_kits/"
"""Where several people have the same thing, whose faults are told once."""

STATED = "given in the request"
"""The source of what a request itself changes of the rules."""


@dataclass(frozen=True, slots=True)
class Assumption:
    """A number or choice that the request left open, or a rule that it changed.

    The pointer is where it could be given, or is.
    """

    pointer: str
    what: str
    value: str
    source: str


def pointer_to(*steps: str | int) -> str:
    """A JSON Pointer (RFC 6901)."""
    written = "/".join(["", *map(str, steps)])
    if "~" not in written and written.count("/") == len(steps):
        return written
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in steps)


def nearest_pointer(pointers: Mapping[Path, str], where: Path) -> str:
    """Where in the request a part of the problem came from, as near as is known."""
    for length in range(len(where), 0, -1):
        known = pointers.get(where[:length])
        if known is not None:
            rest = [WIRE_FIELDS[s] for s in where[length:] if s in WIRE_FIELDS]
            return known + pointer_to(*rest[:1])
    return ""


@dataclass(slots=True)
class Notes:
    """Collected while one request is read."""

    faults: list[Fault] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    """Names given in the request, by unit id."""
    _pointers: dict[Path, str] = field(default_factory=dict)
    _seen: set[tuple[str, str, str]] = field(default_factory=set)
    _assumed: set[tuple[str, str]] = field(default_factory=set)

    def fault(self, pointer: str, code: str, detail: str) -> None:
        """Take down a fault, once."""
        text = "" if pointer.startswith(_SHARED) else detail
        if (pointer, code, text) not in self._seen:
            self._seen.add((pointer, code, text))
            self.faults.append(Fault(pointer, code, detail))

    def unknown_id(self, pointer: str, what: str, given: str, known: Iterable[str]) -> None:
        """Take down an id that nothing defines, with the one that may be meant."""
        advised = len(self.faults) < MOST_ADVISED
        self.fault(pointer, "unknown_id", unknown_id_words(what, given, known, advised=advised))

    def assume(self, pointer: str, what: str, value: str, source: SourceStatus | str) -> None:
        """Take down an assumption; one address needs it once."""
        if (pointer, what) not in self._assumed:
            self._assumed.add((pointer, what))
            self.assumptions.append(Assumption(pointer, what, value, str(source)))

    def default(self, pointer: str, taken: Default) -> int:
        """The value of a default, taken down as an assumption."""
        self.assume(pointer, taken.what, taken.text, taken.source_words)
        return taken.value

    def point(self, where: Path, pointer: str) -> None:
        """Remember where in the request a part of the problem came from."""
        self._pointers[where] = pointer

    def pointer_of(self, where: Path) -> str:
        """Where in the request a part of the problem came from, as near as is known."""
        return nearest_pointer(self._pointers, where)

    def pointers(self) -> dict[Path, str]:
        """All that was pointed at, for answers that speak of parts of the problem."""
        return dict(self._pointers)

    def take_problem_faults(self, faults: Iterable[ProblemFault]) -> None:
        """Take down faults of the problem, without those that a part has told already.

        What several people share is told once.
        """
        told = {fault.code for fault in self.faults}
        places = {fault.pointer for fault in self.faults}
        for fault in faults:
            pointer = self.pointer_of(fault.where)
            if told & _SAME_CAUSE.get(fault.code, frozenset()):
                continue
            if fault.code == "unknown_id" and fault.known:
                if pointer not in places:
                    self.unknown_id(pointer, fault.of_kind, fault.given, fault.known)
            else:
                self.fault(pointer, fault.code, fault.detail)

    def within(self, value: int, pointer: str, *, least: int, most: int, unit: str) -> int:
        """The value, or the nearest that makes sense, with a fault where that is another.

        So what follows can be computed to its end, and every fault of a request is listed at once.
        """
        if not least <= value <= most:
            self.fault(
                pointer,
                "out_of_range",
                f"This must be between {least} and {most} {unit}. Check number and unit.",
            )
        return min(max(value, least), most)

    def mass_up(self, text: str, pointer: str) -> int:
        """A mass that must be carried [g]."""
        return self.within(
            quantities.whole_up(text), pointer, least=0, most=LARGEST_MASS_G, unit="g"
        )

    def mass_down(self, text: str, pointer: str) -> int:
        """A mass that can be carried [g]."""
        return self.within(
            quantities.whole_down(text), pointer, least=0, most=LARGEST_MASS_G, unit="g"
        )

    def volume_up(self, text: str, pointer: str) -> int:
        """A volume that must find room, or fuel that must be there [mL]."""
        return self.within(
            quantities.whole_up(text), pointer, least=0, most=LARGEST_VOLUME_ML, unit="mL"
        )

    def volume_down(self, text: str, pointer: str) -> int:
        """A volume that there is room for, or fuel that can be used [mL]."""
        return self.within(
            quantities.whole_down(text), pointer, least=0, most=LARGEST_VOLUME_ML, unit="mL"
        )

    def room_up(self, text: str, pointer: str) -> int:
        """The room that a gram takes of what has this density, rounded up [mL/g]."""
        density_g_per_l = self.within(
            quantities.whole_down(text), pointer, least=20, most=5000, unit="g/L"
        )
        return units_up(amount=1000, per_unit=max(density_g_per_l, 1))


LARGEST_MASS_G = 1_000_000
LARGEST_VOLUME_ML = 1_000_000
