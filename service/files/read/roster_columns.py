"""The columns of a roster, with every name by which they are known."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final, get_args

from api_schema.conditions import SexName
from api_schema.quantities import LENGTH, MASS, VOLUME
from api_schema.roster import PackCapsRequest
from service.files.read.columns import Column, FileForm

_SEXES: Final = MappingProxyType({sex: (sex[0],) for sex in get_args(SexName)})

PACK_CAPS: Final = tuple(PackCapsRequest.model_fields)

ROSTER: Final = FileForm(
    "roster",
    (
        Column("person_id", ("person id", "id", "person", "code"), "id"),
        Column("name", ("name", "full name", "participant", "member", "traveller"), "text"),
        Column("role", ("role", "function"), "text"),
        Column("guide", ("guide", "is guide"), "flag"),
        Column("strong", ("strong", "used to heavy packs"), "flag"),
        Column("body_mass", ("body mass", "body weight", "mass", "weight"), MASS),
        Column("height", ("height", "body height"), LENGTH),
        Column("age_years", ("age years", "age"), "whole"),
        Column("sex", ("sex",), "choice", _SEXES),
        Column(
            "pack_cap",
            ("pack cap", "pack limit", "max pack", "largest pack", "pack load limit"),
            MASS,
            required=True,
        ),
        *(
            Column(
                f"pack_caps.{cap}",
                tuple(f"pack {word} {cap.replace('_', ' ')}" for word in ("cap", "caps")),
                MASS,
            )
            for cap in PACK_CAPS
        ),
        Column("sled_cap", ("sled cap", "sled limit", "max sled", "largest sled"), MASS),
        Column("total_cap", ("total cap", "total limit", "max total"), MASS),
        Column("load_limit", ("load limit", "reduced load"), MASS),
        Column("load_limit_reason", ("load limit reason", "reason"), "text"),
        Column("kit_to_rope_team", ("kit to rope team",), "flag"),
        Column("pack_volume", ("pack volume", "pack size"), VOLUME),
        Column("water", ("water", "water carried"), VOLUME),
        Column("summit_water", ("summit water", "water on summit day"), VOLUME),
        Column("first_lunch", ("first lunch",), MASS),
        Column("rope_team", ("rope team", "rope", "team"), "id"),
        Column("cook_group", ("cook group", "kitchen"), "id"),
        Column("avoids", ("avoids", "must not eat"), "words"),
        Column("reacts_to", ("reacts to", "allergies", "allergy"), "words"),
        Column("diet", ("diet",), "text"),
        Column("flying_mass", ("flying mass", "flying weight", "mass for the aircraft"), MASS),
        Column("personal_kit", ("personal kit", "kit"), "id"),
    ),
)
"""A name and a pack cap for each person are enough."""
