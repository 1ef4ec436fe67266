"""Bags of night sets packed anew when the number of people who eat from them has changed.

A bag is opened whole, so the people of a kitchen must use it up. Whoever joins or leaves before the
start is known when the food is packed: the bags are made for those who go (common practice, no
source).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from service.translate.read import defaults
from service.translate.read.edits.nodes import Node, Scalar, entries, said

Eaters = tuple[str, str]
"""The kitchen that people eat from, and the menu that they have there; "" for none of their own."""

_MOST_SETS_PER_BAG = 50
_MOST_BAGS = 1000


def people_by_menu(root: Node) -> Counter[Eaters]:
    """How many people of a request eat each menu from each kitchen, without those in `without`."""
    gone = [name.value for name in entries(root, "without")]
    return Counter(
        (str(said(person, "cook_group") or defaults.COOK_GROUP_ID), str(said(person, "menu") or ""))
        for person in entries(root, "roster")
        if said(person, "person_id") not in gone
    )


def pack_anew(root: Node, before: Mapping[Eaters, int]) -> list[str]:
    """Change the bags that came out even before and no longer do, in place; says what was done.

    A bag that held a night of all stays one. Other bags hold as many sets as come out even, at most
    as many as before; those of storm sets stay, because reserves are rounded up to whole bags. A
    given number of bags is changed so that it lasts for as many nights.
    """
    after = people_by_menu(root)
    told: dict[tuple[str, int, int], list[str]] = {}
    for night_set in entries(root, "menu", "night_sets"):
        changed = {
            kitchen: bag
            for kitchen in _kitchens(night_set, after)
            if (bag := _bag(night_set, before, after, kitchen)) is not None
        }
        for kitchen, bag in changed.items():
            words = told.setdefault((kitchen, bag.sets_before, bag.sets), [])
            words.append(str(said(night_set, "set_id")) + bag.count_words)
        if changed:
            _write(root, night_set, changed, _kitchens(night_set, after))
    return [
        f"bags of {kitchen}, night sets in each {sets_before} -> {sets}: {', '.join(names)}"
        for (kitchen, sets_before, sets), names in told.items()
    ]


@dataclass(frozen=True, slots=True)
class _Bag:
    """A bag as it is packed now: its night sets, and the number of bags where that is given."""

    sets_before: int
    sets: int
    count_before: int | None
    count: int | None

    @property
    def count_words(self) -> str:
        """What became of a given number of bags."""
        same = self.count == self.count_before
        return "" if same else f" ({self.count_before} -> {self.count} bags)"


def _kitchens(night_set: Node, after: Mapping[Eaters, int]) -> list[str]:
    """The kitchens from which somebody eats a night set."""
    own, menu = said(night_set, "cook_group"), str(said(night_set, "menu") or "")
    return [kitchen for kitchen, of in after if of == menu and own in (None, kitchen)]


def _bag(
    night_set: Node, before: Mapping[Eaters, int], after: Mapping[Eaters, int], kitchen: str
) -> _Bag | None:
    """How the bags of a kitchen are packed now; None where they stay as they are."""
    eaters = (kitchen, str(said(night_set, "menu") or ""))
    old, new = before.get(eaters, 0), after[eaters]
    per_bag = _whole(said(night_set, "sets_per_bag"))
    if per_bag is None or per_bag < 1 or not old or old % per_bag or not new % per_bag:
        return None
    if per_bag < old and said(night_set, "storm") is True:
        return None
    most = new if per_bag == old else per_bag
    sets = max(n for n in range(1, min(most, _MOST_SETS_PER_BAG) + 1) if new % n == 0)
    count = _whole(said(night_set, "bags"))
    lasting = None if count is None else -(-count * per_bag * new // (old * sets))
    return _Bag(per_bag, sets, count, None if lasting is None else min(lasting, _MOST_BAGS))


def _write(root: Node, night_set: Node, changed: dict[str, _Bag], kitchens: list[str]) -> None:
    """Write the new bags into a night set; one for each kitchen where they differ."""
    alike = len(set(changed.values())) == 1 and len(changed) == len(kitchens)
    if alike:
        _pack(night_set, next(iter(changed.values())))
        return
    menu = root.value["menu"] if isinstance(root.value, dict) else None
    holder = menu.value["night_sets"] if menu and isinstance(menu.value, dict) else None
    if holder is None or not isinstance(holder.value, list):
        return
    own = []
    for kitchen in kitchens:
        members = dict(night_set.value) if isinstance(night_set.value, dict) else {}
        members["cook_group"] = Node(kitchen, night_set.origin)
        own.append(Node(members, night_set.origin))
        if kitchen in changed:
            _pack(own[-1], changed[kitchen])
    at = holder.value.index(night_set)
    holder.value[at : at + 1] = own


def _pack(night_set: Node, bag: _Bag) -> None:
    if isinstance(night_set.value, dict):
        for name, number in (("sets_per_bag", bag.sets), ("bags", bag.count)):
            if number is not None:
                night_set.value[name] = Node(number, f"{night_set.origin}/{name}")


def _whole(number: Scalar) -> int | None:
    """A whole number as a request may write it, 3 or 3.0; None for anything else."""
    if isinstance(number, bool) or not isinstance(number, int | float):
        return None
    return int(number) if float(number).is_integer() else None
