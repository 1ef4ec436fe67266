"""A change of a problem: what it is in words, what it costs in the field, and how it is made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from solver.diagnosis import ChangeKind, Names
from solver.problem import Problem

_ORDER = tuple(ChangeKind)

Apply = Callable[[Problem, int], Problem | None]
"""Makes the change by an amount [g, mL or units]; None where the problem does not allow it."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change; `unit` is that of its amount, empty for one that is made or not.

    `say` gives its words for an amount. `about` names what is changed as (name, value) pairs.
    `tightens` says that every plan with the change is a plan without it, and no heavier there.
    `burden` orders changes of one kind: what costs less in the field comes first. `most` is the
    largest amount of a change that comes in units.
    """

    kind: ChangeKind
    say: Callable[[int], str] = field(compare=False)
    apply: Apply = field(compare=False)
    unit: str = ""
    about: Names = ()
    burden: int = 0
    most: int = 1_000
    tightens: bool = False

    @property
    def is_measured(self) -> bool:
        """Whether it comes in grams or millilitres, so that the relaxation knows how much."""
        return self.unit in ("g", "mL")

    @property
    def is_decision(self) -> bool:
        """Whether the leader has to decide it."""
        return self.kind is ChangeKind.RESERVE

    def cost(self, amount: int = 0) -> tuple[int, int, int]:
        """What it costs in the field, for sorting: kind, amount, burden.

        The order of kinds is common practice, no source.
        """
        return _ORDER.index(self.kind), amount, self.burden


def fixed(text: str) -> Callable[[int], str]:
    """The words of a change without an amount."""
    return lambda _: text


def figure(amount: int, unit: str) -> str:
    """Grams as kilograms, millilitres as litres, with one decimal, which must hold the amount."""
    return f"{amount / 1000:.1f} {'kg' if unit == 'g' else 'L'}"
