"""Gear on the wire: shared and personal items, and where each is needed."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from api_schema.price import Price
from api_schema.quantities import Length, Mass, Range, Temperature, Volume
from api_schema.route import LegModeName
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel, Word

NeedName = Literal["every_night", "every_trip", "at_place", "worn"]
PurposeName = Literal[
    "stove",
    "fuel",
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
    "rucksack",
    "headlamp",
    "flask",
    "sleeping_bag",
    "sleeping_pad",
    "dry_layer",
    "warm_jacket",
    "shell_clothing",
    "gloves",
    "mitts",
    "spare_mitts",
    "eye_protection",
    "cold_clothing",
    "marker_pole",
    "wand",
    "human_waste_container",
    "drag_tarp",
]

Count: TypeAlias = Annotated[int, Field(ge=1, le=200), WHOLE]


class PartRequest(StrictModel):
    """A named part of an item. It may have a carrier of its own."""

    part_id: Id = Field(examples=["poles"])
    name: Name | None = Field(default=None)
    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] = Field(examples=["900 g"])
    volume: Volume | None = Field(default=None, examples=["3 L"])


class PersonalItemRequest(StrictModel):
    """An item of one person, carried in the owner's pack or on the sled that the owner hauls."""

    item_id: Id = Field(examples=["sleeping-bag"])
    name: Name | None = Field(default=None)
    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] = Field(
        description="The mass of one.", examples=["1650 g"]
    )
    volume: Volume | None = Field(
        default=None,
        description="The packed volume of one. If not given, it is estimated from the mass.",
        examples=["14 L"],
    )
    count: Count = Field(default=1)
    needed: NeedName = Field(
        description="`every_night`: it is where its people sleep, every night. `every_trip`: it "
        "is on every trip of its people, outbound and homeward, and where they sleep. A personal "
        "item is then in its owner's pack. `at_place`: it is at `up_to` from the first night "
        "there or beyond, or the first trip beyond, until its people leave that place "
        "homeward. `worn`: it is on the body, never in a load."
    )
    from_place: Id | None = Field(
        default=None,
        description="The item is needed only from this place outbound: on nights there or beyond, "
        "and on the trips, including the way there and back. With `go_ahead` the way there is not "
        "included: the item must have come there before it is needed.",
        examples=["camp-2"],
    )
    up_to: Id | None = Field(
        default=None,
        description="The item goes no further than this place, not even for a day, and waits there "
        "while its people are beyond it.",
    )
    go_ahead: Flag = Field(
        default=False,
        description="Whether the item may be carried ahead before its people need it. If not, it "
        "is each night where they sleep until then.",
    )
    may_follow: Flag = Field(
        default=False,
        description="Whether the item may come later than its people, with `at_place` and "
        "`go_ahead` only. It is then due on the last night of their first stay at the place or "
        "beyond, or before their first trip beyond, so that a cache lower down can be fetched "
        "first.",
    )
    in_use_on: list[LegModeName] = Field(
        default_factory=list,
        json_schema_extra={"default": []},
        max_length=4,
        description="Leg modes on which the item is worn or in use, and so is in no load.",
        examples=[["pack", "fixed_rope"]],
    )
    outside: Flag = Field(
        default=False,
        description="Whether the item is strapped outside the pack and takes no volume.",
    )
    purpose: PurposeName | None = Field(
        default=None,
        description="What the item is for. Rules that ask for a stove, a rope or a warm jacket "
        "look for this word, not for the name. A gas canister or fuel bottle in the gear has the "
        "purpose `fuel`: it is fuel to aircraft, in caches and in rules on keeping things apart. A "
        "`marker_pole` or a `wand` marks a cache, each one of them once.",
        examples=["shelter"],
    )
    shelter_places: Annotated[int, Field(ge=1, le=50), WHOLE] | None = Field(
        default=None,
        description="How many people one shelter covers. Only for the purpose `shelter`.",
        examples=[3],
    )
    communicator_kind: Word | None = Field(
        default=None,
        description="The kind of communicator. The rules ask for communicators of different "
        "kinds. Only for the purpose `communicator`.",
        examples=["satellite messenger"],
    )
    capacity: Volume | None = Field(
        default=None,
        description="The volume that one waste container takes. Only for the purpose "
        "`human_waste_container`.",
        examples=["8 L"],
    )
    needed_below: Temperature | None = Field(
        default=None,
        description="The clothing must be with its owner where nights are colder than this. Only "
        "for the purpose `cold_clothing`.",
        examples=["-22 degC"],
    )
    spoils_below: Temperature | None = Field(
        default=None, description="Freezing spoils it below this temperature.", examples=["-5 degC"]
    )
    length: Annotated[Length, Range("0.01 cm", "30 m")] | None = Field(
        default=None, description="The longest side, for aircraft.", examples=["160 cm"]
    )
    price: Price | None = Field(
        default=None,
        description="What one costs to hire or to buy for this expedition. All prices of a request "
        "are in one currency.",
        examples=["18.00 EUR"],
    )


class ItemRequest(PersonalItemRequest):
    """A shared item."""

    mass: Annotated[Mass, Range("0.1 g", "1000 kg")] | None = Field(  # type: ignore[assignment]
        default=None,
        description="The mass of one. It may be missing only if parts are given.",
        examples=["3.9 kg"],
    )
    apart: Id | None = Field(
        default=None,
        description="A word for a kind that must not be lost all at once. When a trip carries two "
        "or more units with the same word, they are never all in one pack or on one sled.",
        examples=["stoves"],
    )
    keeper: Id | None = Field(
        default=None,
        description="The person who should have the item on every trip on which both are. This is "
        "a preference: a plan that does not meet it reports this under `keeper_has_it`. If there "
        "are several alike, or several parts, the person should have all of them. If each rope "
        "team has its own, the person should have only those of their team.",
        examples=["lead"],
    )
    rope_team: Id | None = Field(
        default=None,
        description="The rope team that needs the item. If not given, everybody needs it. The "
        "ropes, rescue kit and medical kit of a team ride with that team only. If the gear has as "
        "many of them as there are rope teams, or more, and all are needed on every trip, each "
        "team has its own, named `rope.team`. Anybody may carry the rest.",
    )
    left_at: dict[Id, Count] = Field(
        default_factory=dict,
        json_schema_extra={"default": {}},
        max_length=20,
        description="How many of the items stay at each place. The rest go to `up_to`. In answers, "
        "and in plans to be checked, those that stay have the item's id, a full stop and the "
        "place's id as their id, for example `wand.camp-1`. Parts come before the place, as in "
        "`tent.poles.camp-1`.",
        examples=[{"camp-1": 6}],
    )
    parts: list[PartRequest] = Field(
        default_factory=list,
        json_schema_extra={"default": []},
        max_length=10,
        description="The parts into which one item may be split. Each part may have another "
        "carrier. Its id is the item's id, a full stop and the part's id. If the "
        "item has a purpose, it counts for the first part.",
    )
