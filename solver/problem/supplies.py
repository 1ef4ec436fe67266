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

    `contains` are the allergens in it, lunch and drinks included; `diets` those that it suits.
    A set that `simmers` needs more than boiling water. `lowest_m` and `highest_m` are the
    elevations of camps that it is meant for. `dinner_kinds` is how many dinners it has in turn.
    `lunch_needs_cooking` and `lunch_kcal` are about the travel lunch, `spoils_below_c` about
    what freezing does to it. None means that nothing is given.
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
    contains: tuple[str, ...] = ()
    diets: tuple[str, ...] = ()
    simmers: bool | None = None
    lowest_m: int | None = None
    highest_m: int | None = None
    dinner_kinds: int | None = None
    lunch_needs_cooking: bool | None = None
    lunch_kcal: int | None = None
    spoils_below_c: float | None = None

    @property
    def unit_id(self) -> str:
        """How a plan names one bag of these sets."""
        return f"{self.cook_group_id}/{self.set_id}"


@dataclass(frozen=True, slots=True)
class Container:
    """A kind of fuel container of one cook group; `content_ml` is what can be used of it.

    `count` is how many are taken, None for as many as the trip needs. `capacity_ml` is what
    would go in if it were filled to the brim.
    """

    container_id: str
    cook_group_id: str
    content_ml: int
    tare_g: int
    volume_ml: int
    count: int | None = None
    capacity_ml: int | None = None

    @property
    def unit_id(self) -> str:
        """How a plan names one full, unopened container."""
        return f"{self.cook_group_id}/{self.container_id}"


@dataclass(frozen=True, slots=True)
class CookGroup:
    """People who eat the same night sets and sleep at the same place every night.

    `set_at` names the night set used at each place where the group sleeps, `set_on` another one
    for the night of some days. Containers are
    opened in the order listed, all of the first kind before any of the second, each only
    when the one before is empty.

    `kitchen_of` names the group in whose kitchen this one's food is cooked; None for a group with
    a kitchen of its own. Such a guest has bags of its own and no containers: its fuel comes from
    the other group's, and stoves, pots and trash are the kitchen's.
    """

    cook_group_id: str
    set_at: tuple[tuple[str, str], ...]
    containers: tuple[Container, ...] = ()
    kitchen_of: str | None = None
    set_on: tuple[tuple[int, str], ...] = ()

    @property
    def kitchen_id(self) -> str:
        """The group whose kitchen it is: its own, where no other is named."""
        return self.kitchen_of or self.cook_group_id

    def set_id_on(self, day: int, place_id: str) -> str:
        """The night set that the group uses on the night of a day, at a place."""
        return dict(self.set_on).get(day) or self.set_id_at(place_id)

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

    EVACUATION = "evacuation"
    """Every night that people sleep at the place, for those who would leave with one who is
    ill: `Reserve.people` of the cook group, or all of it that sleep there when they are fewer."""


@dataclass(frozen=True, slots=True)
class Reserve:
    """So many nights of one cook group's food and fuel kept at a place and not used.

    Food is whole bags of `set_id`; fuel is the sets' fuel with the margin, in unopened
    containers of any kind of its kitchen. Reserves at one place add up. `people` is for how many
    an evacuation reserve is held; the other kinds know it themselves.
    """

    place_id: str
    cook_group_id: str
    kind: ReserveKind
    nights: int
    set_id: str
    people: int | None = None


@dataclass(frozen=True, slots=True)
class Waste:
    """What people and packaging leave behind, carried down in sacks.

    All packaging of a stay (a run of nights on which people sleep at a place) is put in
    the fewest sacks of at most `trash_sack_g`, as equal as whole grams allow, the heavier
    first; human waste likewise. Where one of several kitchens has a person who reacts severely,
    each packs its own trash. Sacks exist from the stay's last night. `may_be_left` is true
    where the land manager allows human waste to stay.
    """

    waste_g_per_person_night: int = 0
    trash_sack_g: int = 4000
    human_waste_sack_g: int = 4000
    trash_ml_per_g: int = 5
    human_waste_ml_per_g: int = 2
    may_be_left: bool = False
