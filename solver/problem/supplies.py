"""Food, fuel and what they leave behind: night sets, containers, reserves, waste."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class NightSet:
    """Food of one person for one night: dinner, next breakfast, next travel lunch.

    Masses are per set [g]: `gross_g` all in; `packaging_g` of it becomes trash where the set
    is used; `lunch_g` of it is carried by the eater on every trip of the next day and eaten
    by that day's end. A bag holds `sets_per_bag` sets and is carried and opened whole.
    `fuel_ml` is burnt to cook it and to make its water, before any margin. `bag_count` is how
    many bags are taken, None for as many as the trip needs.
    """

    set_id: str
    cook_group_id: str
    gross_g: int
    packaging_g: int
    lunch_g: int
    volume_ml: int
    fuel_ml: int
    sets_per_bag: int = 1
    bag_count: int | None = None
    storm: bool = False
    energy_kcal: int | None = None

    @property
    def unit_id(self) -> str:
        """How a plan names one bag of these sets."""
        return f"{self.cook_group_id}/{self.set_id}"


@dataclass(frozen=True, slots=True)
class Container:
    """A kind of fuel container of one cook group; `content_ml` is what can be used of it.

    `count` is how many are taken, None for as many as the trip needs.
    """

    container_id: str
    cook_group_id: str
    content_ml: int
    tare_g: int
    volume_ml: int
    count: int | None = None

    @property
    def unit_id(self) -> str:
        """How a plan names one full, unopened container."""
        return f"{self.cook_group_id}/{self.container_id}"


@dataclass(frozen=True, slots=True)
class CookGroup:
    """People fed from one kitchen, who sleep at the same place every night.

    `set_at` names the night set used at each place where the group sleeps. Containers are
    opened in the order listed, all of the first kind before any of the second, each only
    when the one before is empty.
    """

    cook_group_id: str
    set_at: tuple[tuple[str, str], ...]
    containers: tuple[Container, ...] = ()

    def set_id_at(self, place_id: str) -> str:
        """The night set that the group uses at a place; KeyError when none is named."""
        return dict(self.set_at)[place_id]


class ReserveKind(StrEnum):
    """Why a reserve is held, which settles when it must be there."""

    STORM = "storm"
    """Every night that people sleep at the place, for those who sleep there."""

    DESCENT = "descent"
    """From the first night that its cook group sleeps at the place to the last night that
    any of them sleeps at it or beyond, for the most who ever do."""

    BASE_WAIT = "base_wait"
    """Every night of the trip, for the whole cook group."""


@dataclass(frozen=True, slots=True)
class Reserve:
    """So many nights of one cook group's food and fuel kept at a place and not used.

    Food is whole bags of `set_id`; fuel is the sets' fuel with the margin, in unopened
    containers of any kind of the group. Reserves at one place add up.
    """

    place_id: str
    cook_group_id: str
    kind: ReserveKind
    nights: int
    set_id: str


@dataclass(frozen=True, slots=True)
class Waste:
    """What people and packaging leave behind, carried down in sacks.

    All packaging of a stay (a run of nights in which somebody sleeps at a place) is put in
    the fewest sacks of at most `trash_sack_g`, as equal as whole grams allow, the heavier
    first; human waste likewise. Sacks exist from the stay's last night.
    """

    waste_g_per_person_night: int = 0
    trash_sack_g: int = 4000
    waste_sack_g: int = 4000
    trash_ml_per_g: int = 5
    waste_ml_per_g: int = 2
