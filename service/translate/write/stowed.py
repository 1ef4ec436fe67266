"""Units of one kind as the wire has them, under the names that the request gave them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from api_schema.load_answer import StowedAnswer
from service.translate.write.units import kilograms, litres
from solver.plan import Stowed


class StowedWriter:
    """Writes units of one plan; what stands unchanged night after night is written once."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names
        self._written: dict[Stowed, StowedAnswer] = {}

    def all(self, units: Iterable[Stowed]) -> list[StowedAnswer]:
        """The lines of a load or store."""
        return [self._written.get(stowed) or self._write(stowed) for stowed in units]

    def _write(self, stowed: Stowed) -> StowedAnswer:
        answer = self._written[stowed] = StowedAnswer(
            unit_id=stowed.unit_id,
            name=self.name(stowed.unit_id),
            count=stowed.count,
            each_kg=kilograms(stowed.mass_g),
            each_l=litres(stowed.volume_ml),
        )
        return answer

    def name(self, unit_id: str) -> str | None:
        """The name of one such unit, given or made from what it is; None for no name."""
        known = self._names.get(unit_id)
        if known is not None:
            return known
        head, _, tail = unit_id.rpartition("/")
        if unit_id.startswith(("trash/", "human-waste/")):
            what, _, *whose, _ = unit_id.split("/")
            words = what.replace("-", " ")
            return f"{words} sack of {whose[0]}" if whose else f"{words} sack"
        if head == "sled":
            return "sled, empty"
        if tail.startswith(("open-", "empty-")):
            container = self._names.get(head, head)
            return f"{container}, {tail.partition('-')[0]}"
        return None


def volume_ml(units: Iterable[Stowed]) -> int:
    """The room that units take together [mL]."""
    return sum(stowed.count * stowed.volume_ml for stowed in units)
