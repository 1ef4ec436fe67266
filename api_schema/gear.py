"""Gear on the wire: shared and personal items, and what the trip needs of each."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from api_schema.quantities import Length, Mass, Range, Temperature, Volume
from api_schema.route import LegModeName
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel, Word

NeedName = Literal["every_night", "every_trip", "at_place", "worn"]
PurposeName = Literal[
    "stove",
    "pump",
    "pot",
    "shelter",
    "communicator",
    "navigation",
    "rope",
    "rescue_kit",
    "shovel",
    "medical_kit",
    "medication",
    "injector",
    "lighter",
    "sleeping_bag",
    "sleeping_pad",
    "dry_layer",
    "warm_jacket",
    "shell_clothing",
    "mitts",
    "spare_mitts",
    "eye_protection",
    "cold_clothing",
    "marker_pole",
    "wand",
    "waste_container",
    "drag_tarp",
]

Count: TypeAlias = Annotated[int, Field(ge=1, le=200), WHOLE]


class PartRequest(StrictModel):
    """A named part of an item that may be carried apart from the others."""

    part_id: Id = Field(examples=["poles"])
    name: Name | None = Field(default=None)
    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] = Field(examples=["900 g"])
    volume: Volume | None = Field(default=None, examples=["3 L"])


class PersonalItemRequest(StrictModel):
    """An item of one person, carried in the owner's pack or on the sled that the owner hauls."""

    item_id: Id = Field(examples=["sleeping-bag"])
    name: Name | None = Field(default=None)
    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] = Field(
        description="Mass of one.", examples=["1650 g"]
    )
    volume: Volume | None = Field(
        default=None,
        description="Packed volume of one. Left out, it is taken from the mass.",
        examples=["14 L"],
    )
    count: Count = Field(default=1)
    needed: NeedName = Field(
        description="`every_night`: where its people sleep, every night. `every_trip`: on every "
        "trip of its people, out and back, and where they sleep; a personal one is then in its "
        "owner's pack. `at_place`: at `up_to` from the first night at it or beyond, or the first "
        "trip beyond it, until its people leave it homeward. `worn`: on the body, never in a load."
    )
    from_place: Id | None = Field(
        default=None,
        description="Needed only from this place outward: on nights at it or beyond, and on trips "
        "there, the way to it and back included. With `go_ahead` the way to it is not included: "
        "it must have come there before it is needed.",
        examples=["camp-2"],
    )
    up_to: Id | None = Field(
        default=None,
        description="Goes no further than this place, not even for a day, and waits there while "
        "its people are beyond.",
    )
    go_ahead: Flag = Field(
        default=False,
        description="Whether it may be carried ahead of its people before it is needed. Without, "
        "it is each night where they sleep until then.",
    )
    may_follow: Flag = Field(
        default=False,
        description="Whether it may come later than its people: with `at_place` and `go_ahead` "
        "only. It is then due on the last night of their first stay at the place or beyond, or "
        "before their first trip beyond, so that a cache lower down can be fetched first.",
    )
    in_use_on: list[LegModeName] = Field(
        default=[],
        max_length=4,
        description="Leg modes on which it is worn or in use, and so in no load.",
        examples=[["pack", "fixed_rope"]],
    )
    outside: Flag = Field(
        default=False, description="Strapped outside the pack, so that it takes no volume."
    )
    purpose: PurposeName | None = Field(
        default=None,
        description="What one of them is good for. Rules that ask for a stove, a rope or a warm "
        "jacket find it by this word and not by its name. A `marker_pole` or a `wand` marks a "
        "cache, each one of them once.",
        examples=["shelter"],
    )
    shelter_places: Annotated[int, Field(ge=1, le=50), WHOLE] | None = Field(
        default=None,
        description="How many people one shelter covers; with the purpose `shelter` only.",
        examples=[3],
    )
    communicator_kind: Word | None = Field(
        default=None,
        description="What one communicator works by, so that two of different kinds can be told "
        "from two of one kind; with the purpose `communicator` only.",
        examples=["satellite messenger"],
    )
    capacity: Volume | None = Field(
        default=None,
        description="What one waste container takes; with the purpose `waste_container` only.",
        examples=["8 L"],
    )
    needed_below: Temperature | None = Field(
        default=None,
        description="Cold clothing is with its owner where the night is colder than this; with "
        "the purpose `cold_clothing` only.",
        examples=["-22 degC"],
    )
    spoils_below: Temperature | None = Field(
        default=None, description="Below this, freezing spoils it.", examples=["-5 degC"]
    )
    length: Annotated[Length, Range("0.01 cm", "30 m")] | None = Field(
        default=None, description="Its longest side, for aircraft.", examples=["160 cm"]
    )


class ItemRequest(PersonalItemRequest):
    """A shared item."""

    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] | None = Field(  # type: ignore[assignment]
        default=None,
        description="Mass of one; may be left out only where parts are given.",
        examples=["3.9 kg"],
    )
    apart: Id | None = Field(
        default=None,
        description="A kind that must not be lost at once: of two or more units with the same "
        "word on one trip, never all are in one pack or on one sled.",
        examples=["stoves"],
    )
    rope_team: Id | None = Field(
        default=None, description="The rope team that needs it. Left out, everybody does."
    )
    left_at: dict[Id, Count] = Field(
        default={},
        max_length=20,
        description="How many of them go no further than each place, the rest up to `up_to`. In "
        "answers, and in plans to be checked, those left at a place have the item's id, a full "
        "stop and the place's id as their id, for example `wand.camp-1`; parts stand before it, "
        "as in `tent.poles.camp-1`.",
        examples=[{"camp-1": 6}],
    )
    parts: list[PartRequest] = Field(
        default=[],
        max_length=10,
        description="The parts into which one may be split; each has its own carrier, and as its "
        "id the item's id, a full stop and the part's. Where the item has a purpose, the first "
        "part stands for it.",
    )
