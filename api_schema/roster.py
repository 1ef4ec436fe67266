"""The roster on the wire: people, the loads that they may carry, their kit and their sleds."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Discriminator, Field, Tag

from api_schema.conditions import SexName
from api_schema.gear import PersonalItemRequest
from api_schema.price import Price
from api_schema.quantities import Length, Mass, MassOrShare, Percent, Range, Volume
from api_schema.strict import WHOLE, Flag, Id, Name, Reason, StrictModel, Word

KIT_ID = "kit id"
LIST_OF_ITEMS = "list of items"

Words: TypeAlias = Annotated[list[Word], Field(max_length=20)]

PersonalItems: TypeAlias = Annotated[list[PersonalItemRequest], Field(max_length=80)]


def _form(value: object) -> str:
    return LIST_OF_ITEMS if isinstance(value, list) else KIT_ID


PersonalKit: TypeAlias = Annotated[
    Annotated[Id, Tag(KIT_ID)] | Annotated[PersonalItems, Tag(LIST_OF_ITEMS)],
    Discriminator(_form),
]

FORM_TAGS = frozenset({KIT_ID, LIST_OF_ITEMS})


class PackCapsRequest(StrictModel):
    """Pack caps that differ from `pack_cap`, by leg mode. Up is outbound, down is homeward.

    Each is a mass, or a share of `pack_cap`, so that one changed `pack_cap` changes them all.
    """

    sled_outbound: MassOrShare | None = Field(default=None)
    sled_homeward: MassOrShare | None = Field(default=None)
    pack_outbound: MassOrShare | None = Field(default=None)
    pack_homeward: MassOrShare | None = Field(default=None)
    fixed_rope_outbound: MassOrShare | None = Field(default=None)
    fixed_rope_homeward: MassOrShare | None = Field(default=None)
    summit_outbound: MassOrShare | None = Field(default=None)
    summit_homeward: MassOrShare | None = Field(default=None)


class PersonRequest(StrictModel):
    """A person on the expedition. All caps are gross: with pack, sled, water and lunch."""

    person_id: Id = Field(examples=["lead"])
    name: Name | None = Field(default=None)
    role: Name | None = Field(
        default=None,
        description="The person's role in free words. It has no effect on the plan.",
        examples=["second guide"],
    )
    guide: Flag = Field(
        default=False,
        description="Whether the person is a guide. An expedition with a guide is "
        "a guided expedition.",
    )
    strong: Flag = Field(
        default=False,
        description="Whether the person is used to packs that are heavy for their body mass.",
    )
    body_mass: Annotated[Mass, Range("10 kg", "300 kg")] | None = Field(
        default=None, examples=["82 kg"]
    )
    height: Annotated[Length, Range("1 m", "2.5 m")] | None = Field(
        default=None, description="The body height, for energy equations.", examples=["178 cm"]
    )
    age_years: Annotated[int, Field(ge=10, le=100), WHOLE] | None = Field(
        default=None, examples=[34]
    )
    sex: SexName | None = Field(
        default=None, description="Which of the two energy equations to use."
    )
    pack_cap: Annotated[Mass, Range("1 g", "1000 kg")] = Field(
        description="The largest gross mass of the pack.", examples=["27 kg"]
    )
    pack_caps: PackCapsRequest = Field(
        default=PackCapsRequest(),
        examples=[{"fixed_rope_outbound": "24 kg", "pack_homeward": "120 %"}],
    )
    sled_cap: Mass | None = Field(
        default=None,
        description="The largest gross mass of the sled, before the leg's sled factor. If not "
        "given, the person hauls no sled.",
        examples=["40 kg"],
    )
    total_cap: Mass | None = Field(
        default=None,
        description="The largest gross mass of pack and sled together, while the "
        "person hauls a sled.",
    )
    load_limit: Mass | None = Field(
        default=None,
        description="The most that somebody weak or injured carries, pack and sled together. It "
        "counts before all other caps.",
        examples=["8 kg"],
    )
    load_limit_reason: Reason | None = Field(
        default=None, description="The reason for the load limit.", examples=["sprained knee"]
    )
    kit_to_rope_team: Flag = Field(
        default=False,
        description="Whether anybody in the rope team may carry sleeping kit, spare clothing and "
        "the like of this person, with a load limit or without. What keeps the person alive stays "
        "with the person: rucksack, day kit, headlamp, gloves and mitts, eye protection, flask, "
        "medication, and the warm layers that the cold asks for.",
    )
    pack_volume: Volume | None = Field(default=None, examples=["85 L"])
    water: Volume | None = Field(
        default=None, description="The water carried on every trip.", examples=["2 L"]
    )
    summit_water: Volume | None = Field(
        default=None,
        description="The water carried on a day that visits a summit. If not given, the same as "
        "on other days.",
        examples=["3 L"],
    )
    first_lunch: Mass | None = Field(
        default=None,
        description="The travel lunch of day 1, brought from home.",
        examples=["350 g"],
    )
    rope_team: Id | None = Field(default=None, description="If not given, all are one rope team.")
    cook_group: Id | None = Field(default=None, description="If not given, all are one cook group.")
    menu: Id | None = Field(
        default=None,
        description="The menu of the night sets that the person eats, from the kitchen of the cook "
        "group: for a diet, or for an allergen that is not severe. A person who reacts severely "
        "needs a `cook_group` of their own if the kitchen has that allergen. Answers name the "
        "people of a menu by kitchen and menu, as in `all+vegetarian`. If not given, the person "
        "eats the sets without a menu. In each kitchen at least one person must do so.",
        examples=["vegetarian"],
    )
    avoids: Words = Field(
        default=[], description="Allergens that the person must not eat.", examples=[["milk"]]
    )
    reacts_to: Words = Field(
        default=[],
        description="Allergens of which not even traces may come near the person. The person must "
        "not eat them either.",
        examples=[["peanut"]],
    )
    diet: Word | None = Field(default=None, examples=["vegetarian"])
    flying_mass: Annotated[Mass, Range("10 kg", "400 kg")] | None = Field(
        default=None,
        description="The mass of the person with clothes and everything worn, as weighed for the "
        "aircraft.",
        examples=["88 kg"],
    )
    personal_kit: PersonalKit | None = Field(
        default=None,
        description="The id of one of `personal_kits`, or the items themselves. If not given, a "
        "generic kit is used.",
        examples=["main"],
    )
    extra_items: PersonalItems = Field(
        default=[], description="Personal items in addition to the kit."
    )


class SledRequest(StrictModel):
    """A sled with its hauler, or with two haulers who share it."""

    sled_id: Id = Field(examples=["sled-1"])
    hauler: Id = Field(description="The person who hauls it.", examples=["lead"])
    second_hauler: Id | None = Field(
        default=None,
        description="The person who pulls the sled together with the hauler, on every trip.",
    )
    second_share: Percent | None = Field(
        default=None,
        description="The share of the sled's mass that the second hauler pulls. If not given, "
        "half.",
        examples=["50 %"],
    )
    tare: Mass | None = Field(
        default=None, description="The mass of the empty sled with its bag.", examples=["3.8 kg"]
    )
    mass_limit: Mass | None = Field(
        default=None,
        description="The largest gross mass, including the empty sled.",
        examples=["40 kg"],
    )
    volume: Volume | None = Field(default=None, examples=["130 L"])
    last_day: Annotated[int, Field(ge=1, le=60), WHOLE] | None = Field(
        default=None,
        description="The last day on which the sled is hauled. After that day it stays where it "
        "is, for example because it broke. If not given, it is hauled to the end.",
        examples=[9],
    )
    price: Price | None = Field(
        default=None, description="What it costs to hire.", examples=["60.00 EUR"]
    )
