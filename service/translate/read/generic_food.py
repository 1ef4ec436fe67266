"""Generic night sets and fuel bottles, for requests that leave menu or containers out."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import RuleSettings
from solver.rulebook import SourceStatus
from solver.rulebook.documents import Citation, cited
from solver.rulebook.sources.of_defaults import DEFAULTS

_PRACTICE, _PRINCIPLE = SourceStatus.PRACTICE, SourceStatus.PRINCIPLE
_DAY = DEFAULTS["night_set"]
_HIGH_DAY = (*_DAY, *DEFAULTS["high_night_set"])


@dataclass(frozen=True, slots=True)
class DefaultSet:
    """A generic night set and the elevation band in which it is used; its fuel is computed."""

    set_id: str
    name: str
    gross_g: int
    packaging_g: int
    lunch_g: int
    volume_ml: int
    energy_kcal: int
    source: SourceStatus = _PRACTICE
    documents: tuple[Citation, ...] = ()

    @property
    def source_words(self) -> str:
        """The status of the source of mass and energy, with the documents that it names."""
        return cited(self.source, self.documents)

    def where(self, rules: RuleSettings) -> str:
        """Where it is used, in words; the bands are those of the rulebook or the request."""
        middle_m, high_m = rules.whole("middle_from_m"), rules.whole("high_from_m")
        words = {
            "low": f"below {middle_m} m",
            "mid": f"from {middle_m} m to {high_m} m",
            "high": f"from {high_m} m",
        }
        return words.get(self.set_id, "held in reserve")


LOW = DefaultSet("low", "generic night set, low", 980, 60, 350, 2300, 4100, SourceStatus.READ, _DAY)
MID = DefaultSet("mid", "generic night set, middle", 890, 60, 340, 2100, 3800, _PRINCIPLE, _DAY)
HIGH = DefaultSet(
    "high", "generic night set, high", 860, 60, 330, 2050, 3700, _PRINCIPLE, _HIGH_DAY
)
STORM = DefaultSet("storm", "generic storm set", 690, 40, 200, 1600, 3000)

BANDS = {"low": LOW, "mid": MID, "high": HIGH}


@dataclass(frozen=True, slots=True)
class DefaultContainer:
    """A generic fuel bottle, filled to three quarters."""

    container_id: str = "bottle"
    name: str = "1 L fuel bottle"
    content_ml: int = 750
    tare_g: int = 190
    volume_ml: int = 1_200
    source: SourceStatus = _PRINCIPLE
    documents: tuple[Citation, ...] = DEFAULTS["bottle_fill"]

    @property
    def source_words(self) -> str:
        """The status of the source of how full it is; its mass and size are common practice."""
        return cited(self.source, self.documents)


BOTTLE = DefaultContainer()
