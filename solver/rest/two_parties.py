"""An expedition divides: who leaves, and the problem of those who leave."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.evacuation_load import legs_home
from solver.checker.queries.evacuation_parties import PartySearch
from solver.checker.queries.parties import least_people
from solver.checker.queries.personal import AT_HAND, LAYERS
from solver.problem import Calendar, Day, Item, NeedKind, Person, Problem, Purpose
from solver.rest.parting import Counts, less, place_of, without_people
from solver.rulebook import RULES, RuleKind

_ASKED_OF_LEAVERS = frozenset(
    {
        "allergens_avoided",
        "day_kit_carried",
        "diet_kept",
        "everything_returns",
        "fuel_held",
        "goes_no_further",
        "guide_ratio_held",
        "guide_with_party",
        "load_limit_held",
        "medication_on_person",
        "night_sets_held",
        "nightly_items_held",
        "owner_carries",
        "pack_cap_held",
        "pack_volume_held",
        "party_big_enough",
        "party_kit_carried",
        "party_kit_complete",
        "severe_allergens_apart",
        "shelter_for_all",
        "sled_cap_held",
        "sled_limit_held",
        "sled_only_on_sled_legs",
        "sled_volume_held",
        "stove_when_far",
        "total_cap_held",
        "units_conserved",
        "units_ride_with_people",
        "vital_kit_on_owner",
        "water_enough",
    }
)
"""Hard rules that a party must keep when it takes a person down; others are advisories for it."""

_WHY_NOT = "a party that takes a person down has one of each kind and goes the shortest way"

_WASTE = ("trash/", "human-waste/")


def who_goes_down(
    problem: Problem, hurt: Person, there: Sequence[Person]
) -> tuple[list[Person], tuple[str, ...]]:
    """Those who leave, the hurt person first, and which people are missing, in words.

    They are the fewest with whom both parties keep the rules on people. If no such choice exists,
    everybody there leaves.
    """
    facts = read_facts(problem)
    others = [person for person in there if person.person_id != hurt.person_id]
    hazards = [leg.crevasse_hazard for leg in legs_home(facts, place_of(problem, hurt.person_id))]
    least = max((least_people(facts, hazard) for hazard in hazards), default=1)
    search = PartySearch(facts, hurt, least)
    found = search.best(others)
    if found is None:
        return [hurt, *others], (search.people_missing(others),)
    return found[0], ()


def left_behind(
    problem: Problem, gone: Collection[str], place_id: str, *, flies: bool
) -> Counter[tuple[str, str]]:
    """What those who leave own and cannot fetch: it stands off their way, or they fly."""
    way = {place_id} if flies else set(problem.route.way_home(place_id))
    own = {item.unit_id for item in problem.gear if item.owner_id in gone}
    history = problem.history
    return Counter(
        {
            (one.place_id, one.unit_id): one.count
            for one in (history.standing if history is not None else ())
            if one.unit_id in own and one.place_id not in {*way, problem.start_place}
        }
    )


@dataclass(frozen=True, slots=True)
class WayDown:
    """The days of those who leave, what they take, and which own things they cannot fetch."""

    days: tuple[Day, ...]
    taken: Counts
    behind: Counts


def of_the_leavers(
    problem: Problem, known: Problem, gone: Collection[str], place_id: str, way: WayDown
) -> Problem:
    """The problem of those who leave: their own things, what they take, and their way home.

    `known` is the same problem with its standing filled in.
    """
    history = problem.history
    if history is None:
        return problem
    staying = {p.person_id for p in problem.roster} - set(gone)
    mine = {item.unit_id for item in problem.gear if item.owner_id in gone}
    others = {item.unit_id for item in problem.gear if item.owner_id in staying}
    not_taken = Counter(way.behind)
    for one in known.history.standing if known.history is not None else ():
        if one.unit_id not in mine | others and not one.unit_id.startswith(_WASTE):
            key = (one.place_id, one.unit_id)
            not_taken[key] += one.count - way.taken.get(key, 0)
    party = less(without_people(problem, staying, place_id), not_taken)
    waived = dict(problem.rules.waived)
    for rule in RULES:
        if rule.kind is RuleKind.HARD and not rule.firm and rule.rule_id not in _ASKED_OF_LEAVERS:
            waived.setdefault(rule.rule_id, _WHY_NOT)
    return replace(
        party,
        calendar=Calendar((*problem.calendar.days[: history.day], *way.days)),
        reserves=(),
        flights=(),
        evacuations=(),
        pins=(),
        rules=replace(problem.rules, waived=tuple(waived.items())),
        history=replace(
            party.history or history,
            waste_since=history.nights + 1,
        ),
    )


def spared_things(problem: Problem, person_id: str, place_id: str) -> Counter[tuple[str, str]]:
    """What a hurt person can do without for some nights: neither vital nor for sleeping or moving.

    If the loads are too heavy, it can be left in a marked cache.
    """
    spared = {
        item.unit_id
        for item in problem.gear
        if item.owner_id == person_id
        and item.need.kind in (NeedKind.EVERY_NIGHT, NeedKind.AT_PLACE)
        and item.purpose not in VITAL | _FOR_SLEEPING
    }
    history = problem.history
    return Counter(
        {
            (one.place_id, one.unit_id): one.count
            for one in (history.standing if history is not None else ())
            if one.place_id == place_id and one.unit_id in spared
        }
    )


_FOR_SLEEPING = frozenset({Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER})

VITAL = AT_HAND | LAYERS
"""What a person keeps when the others take their load; common practice, no source."""


@dataclass(frozen=True, slots=True)
class HurtLimit:
    """The most that a person who is taken down carries [g], and why so much, in words."""

    most_g: int
    why: str


def limit_of_hurt(problem: Problem, person: Person) -> HurtLimit:
    """The most that a person who is taken down carries: what the caller gives, or else the rule.

    The figure of the rule is never less than the mass of what keeps a person alive, because that
    stays on its owner.
    """
    rule_kg = problem.rules.whole("evacuee_load_kg")
    if person.load_limit_g is not None:
        reason = f" ({person.load_limit_reason})" if person.load_limit_reason else ""
        return HurtLimit(
            person.load_limit_g, f"the given limit{reason}; without it, the rule says {rule_kg} kg"
        )
    vital_g = sum(item.mass_g * item.count for item in problem.gear if _is_vital(item, person))
    lunch_g = max((one.lunch_g for one in problem.night_sets), default=0)
    least_g = vital_g + person.water_g + max(lunch_g, person.first_lunch_g)
    if least_g > 1000 * rule_kg:
        return HurtLimit(
            least_g, f"what keeps a person alive; the rule says {rule_kg} kg, which is less"
        )
    return HurtLimit(1000 * rule_kg, "no limit is given, and the rule says so")


def _is_vital(item: Item, person: Person) -> bool:
    is_theirs = item.owner_id == person.person_id and item.need.kind is not NeedKind.WORN
    return is_theirs and item.purpose in VITAL


def sparing(problem: Problem, person_id: str, most_g: int, reason: str) -> Problem:
    """The problem with a person who carries very little: the others have the rest.

    The person's things that are not vital become shared kit of the party, under the same names.
    The person hauls no sled.
    """
    day = problem.history.day if problem.history is not None else 1
    return replace(
        problem,
        sleds=tuple(
            replace(sled, last_day=day)
            if person_id in (sled.hauler_id, sled.second_hauler_id)
            else sled
            for sled in problem.sleds
        ),
        roster=tuple(
            replace(p, load_limit_g=most_g, load_limit_reason=reason, kit_to_rope_team=True)
            if p.person_id == person_id
            else p
            for p in problem.roster
        ),
        gear=tuple(
            replace(item, item_id=item.unit_id, owner_id=None)
            if item.owner_id == person_id
            and item.purpose not in VITAL
            and item.need.kind is not NeedKind.WORN
            else item
            for item in problem.gear
        ),
    )
