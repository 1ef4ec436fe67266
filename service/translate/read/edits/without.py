"""People taken off a request, with everything that is theirs and everything that names them.

Their sleds, personal kit, seats on flights and questions of evacuation go with them. If a whole
rope team or cook group stays at home, its gear, food and fuel do, too. Bags of night sets are
packed for those who are left. Counts that follow from people follow by themselves; counts that the
request gives stay, and are named for another look.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from service.translate.read import defaults
from service.translate.read.edits.bag_sizes import pack_anew, people_by_menu
from service.translate.read.edits.look_again import counts_that_stay
from service.translate.read.edits.nodes import Node, entries, keep, member, said


@dataclass(slots=True)
class TakenOff:
    """What was done with a request when people left it, in words."""

    done: list[str] = field(default_factory=list)
    look_again: list[str] = field(default_factory=list)


def take_off(root: Node, person_ids: frozenset[str]) -> TakenOff:
    """Take people off a request, in place; parts of it that cannot be read stay as they are."""
    told = TakenOff()
    before = people_by_menu(root)
    leaving = [p for p in entries(root, "roster") if said(p, "person_id") in person_ids]
    staying = [p for p in entries(root, "roster") if said(p, "person_id") not in person_ids]
    keep(root, "roster", staying)
    _sleds(root, person_ids, staying, told)
    _flights_and_evacuations(root, person_ids, told)
    _keepers(root, person_ids, told)
    _pins(root, person_ids, told)
    teams = _emptied("rope_team", defaults.ROPE_TEAM_ID, leaving, staying)
    groups = _emptied("cook_group", defaults.COOK_GROUP_ID, leaving, staying)
    menus = _emptied("menu", "", leaving, staying) - {""}
    _rope_teams(root, teams, told)
    _cook_groups(root, groups, told)
    for way in (("menu", "night_sets"), ("menu", "used_at")):
        _leave_out(root, way, ("menu", "set_id"), menus, told)
    told.done += pack_anew(root, before)
    told.look_again += _roles(leaving, staying)
    told.look_again += counts_that_stay(root)
    return told


def _sleds(root: Node, person_ids: frozenset[str], staying: list[Node], told: TakenOff) -> None:
    """Their sleds stay at home; of a sled for two, the other hauls it alone if they may haul."""
    haulers = {said(p, "person_id") for p in staying if said(p, "sled_cap") is not None}
    kept = []
    for sled in entries(root, "sleds"):
        pair = [said(sled, "hauler"), said(sled, "second_hauler")]
        left = [who for who in pair if who is not None and who not in person_ids]
        if len(left) == len([who for who in pair if who is not None]):
            kept.append(sled)
            continue
        name = said(sled, "sled_id")
        if not left or left[0] not in haulers or not isinstance(sled.value, dict):
            told.done.append(f"sled {name} stays at home")
            continue
        if pair[0] in person_ids:
            sled.value["hauler"] = sled.value["second_hauler"]
        for gone in ("second_hauler", "second_share"):
            sled.value.pop(gone, None)
        kept.append(sled)
        told.done.append(f"{left[0]} hauls sled {name} alone")
        told.look_again.append(f"whether {left[0]} can haul sled {name} alone")
    keep(root, "sleds", kept)


def _flights_and_evacuations(root: Node, person_ids: frozenset[str], told: TakenOff) -> None:
    for flight in entries(root, "flights"):
        people = entries(flight, "people")
        kept = [
            who for who in people if not (isinstance(who.value, str) and who.value in person_ids)
        ]
        if len(kept) < len(people):
            keep(flight, "people", kept)
            told.done.append(f"seats are free on flight {said(flight, 'flight_id')}")
            if not kept:
                told.look_again.append(f"flight {said(flight, 'flight_id')}, now cargo only")
    asked = entries(root, "evacuations")
    kept = [wish for wish in asked if said(wish, "person") not in person_ids]
    if len(kept) < len(asked):
        keep(root, "evacuations", kept)
        told.done.append(f"questions of evacuation left out: {len(asked) - len(kept)}")


def _keepers(root: Node, person_ids: frozenset[str], told: TakenOff) -> None:
    """Things that name one of them as their keeper have no named keeper any more."""
    for item in entries(root, "gear"):
        if isinstance(item.value, dict) and said(item, "keeper") in person_ids:
            del item.value["keeper"]
            told.done.append(f"{said(item, 'item_id')} has no named keeper")


def _pins(root: Node, person_ids: frozenset[str], told: TakenOff) -> None:
    """What is pinned to one of them may ride with anybody."""
    pins = entries(root, "pins")
    kept = [pin for pin in pins if said(pin, "person_id") not in person_ids]
    if len(kept) < len(pins):
        keep(root, "pins", kept)
        told.done.append(f"pins left out: {len(pins) - len(kept)}")


def _emptied(
    field_name: str, standard: str, leaving: list[Node], staying: list[Node]
) -> frozenset[str]:
    """The teams or groups of those who leave that nobody stays in."""
    before, after = (
        {str(said(person, field_name) or standard) for person in people}
        for people in (leaving, staying)
    )
    return frozenset(before - after)


def _rope_teams(root: Node, teams: frozenset[str], told: TakenOff) -> None:
    """Ways and gear of rope teams that stay at home as a whole."""
    for day in entries(root, "calendar"):
        ways = member(day, "teams")
        if ways is not None and isinstance(ways.value, dict):
            for team in teams & set(ways.value):
                del ways.value[team]
    _leave_out(root, ("gear",), ("rope_team", "item_id"), teams, told)
    told.done += [f"rope team {team} has nobody left" for team in sorted(teams)]


def _cook_groups(root: Node, groups: frozenset[str], told: TakenOff) -> None:
    """Food, fuel and reserves of cook groups that stay at home as a whole."""
    for way, name in (
        (("menu", "night_sets"), "set_id"),
        (("menu", "used_at"), "set_id"),
        (("fuel", "containers"), "container_id"),
        (("reserves",), "place"),
    ):
        _leave_out(root, way, ("cook_group", name), groups, told)
    told.done += [f"cook group {group} has nobody left" for group in sorted(groups)]


def _leave_out(
    root: Node, way: tuple[str, ...], names: tuple[str, str], gone: frozenset[str], told: TakenOff
) -> None:
    """Leave entries of a list out whose owner is gone, and name them.

    `names` are the member that names the owner and the one that names the entry.
    """
    owner, name = names
    holder: Node | None = root
    for step in way[:-1]:
        holder = None if holder is None else member(holder, step)
    if holder is None:
        return
    listed = entries(holder, way[-1])
    left_out = [entry for entry in listed if said(entry, owner) in gone]
    if left_out:
        keep(holder, way[-1], [entry for entry in listed if said(entry, owner) not in gone])
        listing = ", ".join(str(said(entry, name)) for entry in left_out)
        told.done.append(f"left out of {way[-1].replace('_', ' ')}: {listing}")


def _roles(leaving: list[Node], staying: list[Node]) -> list[str]:
    """What is asked of guides and rope teams, once somebody has left."""
    look = []
    if any(said(p, "guide") is True for p in leaving):
        guides = sum(said(p, "guide") is True for p in staying)
        look.append(f"guides: {guides} left for {len(staying)} people")
    sizes: dict[str, int] = {}
    for person in staying:
        team = str(said(person, "rope_team") or defaults.ROPE_TEAM_ID)
        sizes[team] = sizes.get(team, 0) + 1
    of_leaving = {str(said(p, "rope_team") or defaults.ROPE_TEAM_ID) for p in leaving}
    look += [f"rope team {t}: {sizes[t]} people" for t in sorted(of_leaving & set(sizes))]
    return look
