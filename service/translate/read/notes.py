"""What a reading of a request takes down besides the problem: faults, assumptions, addresses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from service.errors import Fault
from service.translate.read import quantities
from service.translate.read.defaults import Default
from service.translate.read.wire_names import WIRE_FIELDS
from solver.errors import ProblemFault
from solver.quantities import units_up
from solver.rulebook import SourceStatus

Path = tuple[str | int, ...]

OF_EACH_GROUP = frozenset({"no_containers", "too_few_containers", "too_few_bags"})
"""Faults of single cook groups, of which several may have the same pointer."""

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

    def fault(self, pointer: str, code: str, detail: str) -> None:
        """Take down a fault; the same kind of fault of one address once."""
        if all((known.pointer, known.code) != (pointer, code) for known in self.faults):
            self.faults.append(Fault(pointer, code, detail))

    def assume(self, pointer: str, what: str, value: str, source: SourceStatus | str) -> None:
        """Take down an assumption; one address needs it once."""
        if all(known.pointer != pointer or known.what != what for known in self.assumptions):
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
        """Take down faults of the problem; what several people share is told once.

        What a cook group lacks is told of each: one pointer may stand for all of them.
        """
        seen = {(fault.pointer, fault.code, "") for fault in self.faults}
        for fault in faults:
            pointer = self.pointer_of(fault.where)
            of_group = fault.detail if fault.code in OF_EACH_GROUP else ""
            if (pointer, fault.code, of_group) not in seen:
                seen.add((pointer, fault.code, of_group))
                self.faults.append(Fault(pointer, fault.code, fault.detail))

    def within(self, value: int, pointer: str, *, least: int, most: int, unit: str) -> int:
        """The value, or the nearest that makes sense, with a fault where that is another.

        What follows can so be reckoned to its end, and every fault of a request told at once.
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
