"""Gear: single objects, shared or personal, and what the trip needs of each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.problem.route import LegMode

BUNDLE_UNIT_G = 500
"""Up to this mass of one, alike things are small [g]; common practice, no source."""


class NeedKind(StrEnum):
    """When an item must be with its people.

    Its people are its owner, else its rope team, else everybody.
    """

    EVERY_NIGHT = "every_night"
    """At the place where its people sleep, every night."""

    EVERY_TRIP = "every_trip"
    """On every trip of its people, out and back, and where they sleep every night."""

    AT_PLACE = "at_place"
    """At the place `up_to` from the first night that its people sleep there or beyond (or
    their first trip beyond it, when that comes sooner) until they last leave it homeward.

    One that may follow is due on the last night of that first stay at or beyond the place, or
    before their first trip beyond it, so that a cache below the camp can be fetched first."""

    WORN = "worn"
    """On the body all the time: it is never part of a pack or sled load."""


class Purpose(StrEnum):
    """What an item is good for, where a rule asks for things that do it."""

    STOVE = "stove"
    FUEL = "fuel"
    """A gas canister or a bottle beside the cook groups' containers: fuel like theirs, though no
    night burns it in the ledger."""

    PUMP = "pump"
    POT = "pot"
    SHELTER = "shelter"
    COMMUNICATOR = "communicator"
    NAVIGATION = "navigation"
    ROPE = "rope"
    RESCUE_KIT = "rescue_kit"
    SHOVEL = "shovel"
    MEDICAL_KIT = "medical_kit"
    MEDICATION = "medication"
    INJECTOR = "injector"
    LIGHTER = "lighter"
    RUCKSACK = "rucksack"
    HEADLAMP = "headlamp"
    FLASK = "flask"
    SLEEPING_BAG = "sleeping_bag"
    SLEEPING_PAD = "sleeping_pad"
    DRY_LAYER = "dry_layer"
    WARM_JACKET = "warm_jacket"
    SHELL_CLOTHING = "shell_clothing"
    GLOVES = "gloves"
    MITTS = "mitts"
    SPARE_MITTS = "spare_mitts"
    EYE_PROTECTION = "eye_protection"
    COLD_CLOTHING = "cold_clothing"
    MARKER_POLE = "marker_pole"
    WAND = "wand"
    HUMAN_WASTE_CONTAINER = "human_waste_container"
    DRAG_TARP = "drag_tarp"


@dataclass(frozen=True, slots=True)
class Need:
    """What is needed of an item, and in which part of the route.

    `up_to`: the item is never beyond this place; while its people are, it waits there.
    `from_place`: it is needed only from this place outward, that is at nights at or beyond it
    and on trips with both ends at or beyond it. One that may not go ahead is needed on the way
    there, too: on trips with one end at or beyond it. While its people are short of
    `from_place`, an item that may go ahead can be anywhere; one that may not stays each
    night with its people. `may_follow` is of items that belong at a place and may go ahead.
    """

    kind: NeedKind
    from_place: str | None = None
    up_to: str | None = None
    may_go_ahead: bool = False
    may_follow: bool = False


@dataclass(frozen=True, slots=True)
class Item:
    """Identical single objects that are never split; `count` of them, each of this mass.

    `owner_id` is the person who carries a personal item, in the own pack or sled only;
    nobody's items are shared. An item needed on every trip by its owner is carried in the
    owner's pack. `in_use_on` are leg modes on which the item, riding a trip that it must
    ride, is in use and so neither mass nor volume of any load. `outside` items take no
    volume. Of two or more items of one `apart_kind` on a trip not all may be in the same
    pack or sled.

    `purpose` is what one of them is good for. A shelter gives `shelter_places` people cover; a
    communicator is of some `communicator_kind`; a waste container takes `capacity_ml`; cold
    clothing is needed where the night is colder than `needed_below_c`; what freezing spoils
    does so below `spoils_below_c`. `length_mm` is the longest side, for aircraft. `keeper_id` is
    who the request wants a shared item to be with.
    """

    item_id: str
    mass_g: int
    volume_ml: int
    need: Need
    count: int = 1
    owner_id: str | None = None
    rope_team_id: str | None = None
    in_use_on: tuple[LegMode, ...] = ()
    outside: bool = False
    apart_kind: str | None = None
    name: str = ""
    purpose: Purpose | None = None
    shelter_places: int = 0
    communicator_kind: str | None = None
    capacity_ml: int | None = None
    needed_below_c: float | None = None
    spoils_below_c: float | None = None
    length_mm: int | None = None
    keeper_id: str | None = None

    @property
    def is_single(self) -> bool:
        """Whether it is a single piece of shared kit that rides in loads."""
        return self.count == 1 and self._is_shared_load

    @property
    def is_bundle(self) -> bool:
        """Whether these are small alike things that ride together: wands, pickets, cache bags.

        Only what belongs at a place: what is needed on every trip is spread over people on
        purpose, and so are kinds that are kept apart.
        """
        return (
            self.count > 1
            and self._is_shared_load
            and self.need.kind is NeedKind.AT_PLACE
            and self.mass_g <= BUNDLE_UNIT_G
            and self.apart_kind is None
        )

    @property
    def _is_shared_load(self) -> bool:
        return self.owner_id is None and self.need.kind is not NeedKind.WORN

    @property
    def unit_id(self) -> str:
        """How a plan names one of these: a personal item carries its owner's id in front."""
        return self.item_id if self.owner_id is None else f"{self.owner_id}/{self.item_id}"

    @property
    def packed_volume_ml(self) -> int:
        """The room that one takes in a pack or sled [mL]."""
        return 0 if self.outside else self.volume_ml
