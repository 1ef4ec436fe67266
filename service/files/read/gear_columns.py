"""The columns of a gear list, with every name by which they are known."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final, get_args

from api_schema.gear import PurposeName
from api_schema.quantities import LENGTH, MASS, TEMPERATURE, VOLUME
from api_schema.route import LegModeName
from service.files.read.columns import Column, FileForm

_NEEDS: Final = MappingProxyType(
    {
        "every_night": ("night", "nights", "camp", "every night"),
        "every_trip": ("trip", "trips", "always", "every trip", "every day"),
        "at_place": ("place", "at place", "cache"),
        "worn": ("worn", "on body", "body", "clothes worn"),
    }
)
_MODES: Final = MappingProxyType(
    {mode: (mode.replace("_", " "),) for mode in get_args(LegModeName)}
)
_PURPOSES: Final = MappingProxyType(
    {
        **{purpose: (purpose.replace("_", " "),) for purpose in get_args(PurposeName)},
        "shelter": ("tent", "tents", "shelter"),
        "fuel": ("gas", "gas canister", "fuel bottle", "fuel"),
        "communicator": ("communication", "communications", "radio", "communicator"),
        "rucksack": ("backpack", "pack", "rucksack"),
        "medical_kit": ("first aid", "first aid kit", "medical", "medical kit"),
        "headlamp": ("head torch", "headtorch", "headlamp"),
        "sleeping_pad": ("mat", "sleeping mat", "pad", "sleeping pad"),
        "rescue_kit": ("crevasse rescue", "crevasse rescue kit", "rescue kit"),
    }
)

GEAR: Final = FileForm(
    "gear list",
    (
        Column("item_id", ("item id", "id", "code", "sku", "item no", "item number"), "id"),
        Column(
            "name",
            ("name", "item", "item name", "description", "article", "equipment", "gear", "what"),
            "text",
        ),
        Column(
            "mass",
            (
                "mass",
                "weight",
                "mass each",
                "weight each",
                "each mass",
                "unit mass",
                "unit weight",
                "mass of one",
                "weight of one",
                "mass per item",
                "weight per item",
                "wt",
            ),
            MASS,
            required=True,
        ),
        Column("volume", ("volume", "packed volume", "volume each", "vol"), VOLUME),
        Column(
            "count", ("count", "quantity", "qty", "number", "pieces", "pcs", "how many"), "whole"
        ),
        Column("owner", ("owner", "person", "person id", "belongs to", "whose"), "id"),
        Column("needed", ("needed", "need", "when needed"), "choice", _NEEDS),
        Column("from_place", ("from place", "from"), "id"),
        Column("up_to", ("up to", "to place", "stays below", "no further than"), "id"),
        Column("go_ahead", ("go ahead", "may go ahead"), "flag"),
        Column("may_follow", ("may follow", "may come later"), "flag"),
        Column("in_use_on", ("in use on", "worn on", "in use"), "choices", _MODES),
        Column("outside", ("outside", "strapped outside", "lashed outside"), "flag"),
        Column("purpose", ("purpose", "what for"), "choice", _PURPOSES),
        Column("shelter_places", ("shelter places", "tent places", "sleeps"), "whole"),
        Column("communicator_kind", ("communicator kind", "kind of communicator"), "text"),
        Column("capacity", ("capacity", "container capacity"), VOLUME),
        Column("needed_below", ("needed below", "colder than"), TEMPERATURE),
        Column(
            "spoils_below", ("spoils below", "keep above", "must not freeze below"), TEMPERATURE
        ),
        Column("length", ("length", "longest side"), LENGTH),
        Column("apart", ("apart", "keep apart"), "id"),
        Column("rope_team", ("rope team", "rope", "team"), "id"),
        Column("left_at", ("left at", "stays at"), "counts"),
        Column("part_of", ("part of",), "id"),
        Column("weighed", ("weighed", "mass is weighed"), "flag"),
        Column("weighed_mass", ("weighed mass", "weighed weight", "mass weighed"), MASS),
    ),
)
"""A list that says only names and masses is enough; all else has its default."""
