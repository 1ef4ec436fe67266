"""What a request may leave out: the figures taken then, each with the status of its source.

Where a figure is a range, it is the one on the safe side of typical. All of them are listed in
the answer as assumptions, so that nobody plans on a number that they have not seen. Each figure is
held here once, as a number; the text of its assumption is made from it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from service.translate.read import words
from solver.rulebook import SourceStatus
from solver.rulebook.documents import Citation, cited
from solver.rulebook.sources.of_defaults import DEFAULTS

PRACTICE, DERIVED = SourceStatus.PRACTICE, SourceStatus.DERIVED
PRINCIPLE, MEMORY = SourceStatus.PRINCIPLE, SourceStatus.MEMORY

ROPE_TEAM_ID = "team"
COOK_GROUP_ID = "all"


@dataclass(frozen=True, slots=True)
class Default:
    """A figure on the solver's grid: what it is of, its value, and how that is put into words."""

    what: str
    value: int
    in_words: Callable[[int], str]
    source: SourceStatus = PRACTICE
    documents: tuple[Citation, ...] = ()

    @property
    def text(self) -> str:
        """The value as an assumption shows it."""
        return self.in_words(self.value)

    @property
    def source_words(self) -> str:
        """The status of its source, with the documents that it names."""
        return cited(self.source, self.documents)


PACK_VOLUME = Default("Volume of the pack.", 85_000, words.litres)
WATER = Default("Water carried on every trip.", 2_000, words.litres)
FIRST_LUNCH = Default("Travel lunch of day 1.", 350, words.grams)
LARGEST_TOTAL_CAP = Default("Most in pack and on the sled together.", 68_000, words.kilograms)

SLED_TARE = Default("Mass of the empty sled with its bag.", 4_000, words.kilograms)
SLED_MASS_LIMIT = Default("Largest gross mass.", 45_000, words.kilograms)
SLED_VOLUME = Default("Volume of the sled.", 130_000, words.litres)
SECOND_SHARE = Default("What the second hauler pulls.", 50, words.percent)

FUEL_DENSITY = Default("Density of liquid fuel.", 700, words.density)
FUEL_MARGIN = Default("Margin on all fuel burnt.", 12, words.percent)
PACK_VOLUME_ALLOWANCE = Default(
    "What may be lashed outside beyond a pack's volume.", 10, words.percent
)

WASTE_OF_PERSON_NIGHT = Default(
    "Human waste of one person in one night: 150 g, a 20 g liner, 15 g of paper.",
    185,
    words.grams,
    PRINCIPLE,
    DEFAULTS["human_waste"],
)
TRASH_SACK = Default("Most that one trash sack holds.", 4_000, words.kilograms)
WASTE_SACK = Default("Most that one waste sack holds.", 4_000, words.kilograms)
TRASH_ROOM = Default("Density of packed trash.", 5, words.density_of_room)
"""Room that a gram takes [mL/g]."""
WASTE_ROOM = Default("Density of packed waste.", 2, words.density_of_room)
"""Room that a gram takes [mL/g]."""

ITEM_ML_PER_G = 3


def sled_factor_percent(steepest_deg: float | None) -> int:
    """Share of a sled's limits that holds on a leg of that steepest angle [per cent].

    Common practice gives 100 % on flat ground, 85 % at 10 to 16 degrees, 65 % at 20 to 22 and
    nothing over 25; between those the next steeper figure is taken, and 85 % where the angle is
    not known.
    """
    if steepest_deg is None:
        return 85
    for below_deg, percent in ((10.0, 100), (16.001, 85), (22.001, 65), (25.001, 50)):
        if steepest_deg < below_deg:
            return percent
    return 0
