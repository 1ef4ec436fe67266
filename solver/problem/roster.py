"""The roster: people with the loads that they may carry, and the sleds that they haul."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.problem.presence import ALL_THE_TIME, Presence
from solver.problem.route import Direction, LegMode


@dataclass(frozen=True, slots=True)
class Caps:
    """Largest gross loads of one person [g]; what may not be exceeded on any trip.

    `pack_g` holds where `pack_by_leg` has no figure for the mode and direction. `sled_g` is
    the gross sled mass before the leg's factor, 0 for a person who hauls none. `total_g`
    limits pack and sled together on trips where a sled is hauled.
    """

    pack_g: int
    sled_g: int = 0
    total_g: int | None = None
    pack_by_leg: tuple[tuple[LegMode, Direction, int], ...] = ()

    def pack_on(self, mode: LegMode, direction: Direction) -> int:
        """The pack cap on a leg of that mode in that direction [g]."""
        for its_mode, its_direction, cap_g in self.pack_by_leg:
            if its_mode is mode and its_direction is direction:
                return cap_g
        return self.pack_g


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody on the trip. `water_g` is carried on every trip, full, out and back.

    `first_lunch_g` is the travel lunch of day 1, brought from home. On a day that visits a
    summit `summit_water_g` is carried instead of `water_g`, where given.

    `load_limit_g` is what a weak or hurt person carries at most, pack and sled together, with
    the reason. With `kit_to_rope_team`, limit or none, their sleeping kit and the like may ride
    with anybody of their rope team, never what keeps them alive. `is_strong` lifts the advisory on
    packs heavy for the body. `avoids` are allergens that the person must not eat; of those in
    `reacts_to` not even traces may come near. `flying_mass_g` is body, clothes and all worn
    things as weighed for the aircraft. `presence` is of those who join or leave on the way.
    """

    person_id: str
    caps: Caps
    pack_volume_ml: int
    rope_team_id: str
    cook_group_id: str
    water_g: int = 0
    first_lunch_g: int = 0
    body_mass_g: int | None = None
    role: str = ""
    name: str = field(default="", compare=False)
    is_guide: bool = False
    is_strong: bool = False
    load_limit_g: int | None = None
    load_limit_reason: str = ""
    kit_to_rope_team: bool = False
    avoids: tuple[str, ...] = ()
    reacts_to: tuple[str, ...] = ()
    diet: str | None = None
    summit_water_g: int | None = None
    flying_mass_g: int | None = None
    presence: Presence = ALL_THE_TIME


@dataclass(frozen=True, slots=True)
class Sled:
    """A sled with its hauler, or its two. Mass limit is gross, its tare included [g].

    It goes with its haulers on every trip along a `SLED` leg that starts where the sled
    stands, empty or not; elsewhere it stays where it was last left. Of what it weighs the
    second hauler pulls `second_share_percent`, the first the rest. A sled that was lost or left
    for good goes nowhere after `last_day`.
    """

    sled_id: str
    hauler_id: str
    tare_g: int
    mass_limit_g: int
    volume_ml: int
    second_hauler_id: str | None = None
    second_share_percent: int = 50
    last_day: int | None = None

    def shares(self) -> tuple[tuple[str, int], ...]:
        """Who pulls how much of it [per cent], the first hauler first."""
        if self.second_hauler_id is None:
            return ((self.hauler_id, 100),)
        return (
            (self.hauler_id, 100 - self.second_share_percent),
            (self.second_hauler_id, self.second_share_percent),
        )
