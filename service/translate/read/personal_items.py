"""Personal kits of a request, and what comes on top of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from api_schema.gear import PersonalItemRequest
from api_schema.plan_request import PlanRequest
from api_schema.roster import PersonRequest
from service.translate.read import generic_kit, words
from service.translate.read.item_size import modes_in_use, need_of, volume_ml
from service.translate.read.item_use import read_use
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Item, Need


def personal_items(
    request: PlanRequest, person: PersonRequest, index: int, notes: Notes
) -> Iterator[tuple[Item, str]]:
    """A person's kit and what comes on top, each with its address in the request."""
    pointer = pointer_to("roster", index, "personal_kit")
    kit = person.personal_kit
    if kit is None:
        notes.assume(
            pointer,
            "Personal kit: generic pieces for every night and every trip, with the pack.",
            words.kilograms(sum(item.mass_g for item in generic_kit.PERSONAL_KIT)),
            "; ".join(sorted({str(item.source) for item in generic_kit.PERSONAL_KIT})),
        )
        yield from (
            (_default_item(item, person.person_id), pointer) for item in generic_kit.PERSONAL_KIT
        )
    elif isinstance(kit, list):
        yield from _owned(kit, person.person_id, pointer, notes)
    elif kit in request.personal_kits:
        kit_pointer = pointer_to("personal_kits", kit)
        yield from _owned(request.personal_kits[kit], person.person_id, kit_pointer, notes)
    else:
        notes.unknown_id(pointer, "personal kit", kit, request.personal_kits)
    extras = pointer_to("roster", index, "extra_items")
    yield from _owned(person.extra_items, person.person_id, extras, notes)


def _default_item(item: generic_kit.DefaultItem, owner_id: str) -> Item:
    return Item(
        item_id=item.item_id,
        mass_g=item.mass_g,
        volume_ml=item.volume_ml,
        need=Need(item.kind),
        owner_id=owner_id,
        in_use_on=item.in_use_on,
        outside=item.outside,
        name=item.name,
        purpose=item.purpose,
    )


def _owned(
    items: Sequence[PersonalItemRequest], owner_id: str, pointer: str, notes: Notes
) -> Iterator[tuple[Item, str]]:
    for index, item in enumerate(items):
        here = f"{pointer}/{index}"
        mass_g = notes.mass_up(item.mass, f"{here}/mass")
        yield (
            Item(
                item_id=item.item_id,
                mass_g=mass_g,
                volume_ml=volume_ml(item.volume, mass_g, here, notes),
                need=need_of(item, item.up_to),
                count=item.count,
                owner_id=owner_id,
                in_use_on=modes_in_use(item),
                outside=item.outside,
                name=item.name or "",
                **read_use(item, here, notes),
            ),
            here,
        )
