"""Fuel of night sets for which the request gives none: from snow to fuel at their camps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from service.translate.read.defaults import DERIVED, MEMORY, PRACTICE
from service.translate.read.menu_types import OpenFuel, SetAt, SleptAt
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Conditions, NightSet, Place, Reserve, RuleSettings
from solver.requirements.figures import Input
from solver.requirements.stove_chain import CampChain, camp_chain
from solver.requirements.surroundings import NIGHT_BELOW_STANDARD_K

# What a chain's inputs are called on the wire, what they are, and the status of their defaults.
_CONDITIONS = (
    ("fuel", "fuel_kind", "What the stoves burn.", PRACTICE),
    ("efficiency", "stove_efficiency", "Share of the heat that reaches the water.", MEMORY),
    ("simmering", "simmering", "A person's share of simmering, at sea level.", PRACTICE),
    ("priming", "priming", "A person's share of priming a stove.", MEMORY),
    ("snow_temperature", "snow_temperature", "Of the snow melted: as the night's air.", PRACTICE),
    ("melted", "melted_water", "Water melted for a person and day, by elevation.", PRACTICE),
    ("boiled", "boiled_water", "Water melted and boiled for a person and day.", PRACTICE),
)


_Computed = tuple[float, Place, CampChain]
"""The fuel of a night at a place, before it is rounded [mL], and how it was computed."""


@dataclass(frozen=True, slots=True)
class Camps:
    """Where night sets are used: by the cook groups that sleep there, and as reserves."""

    places: Sequence[Place]
    slept_at: SleptAt
    set_at: SetAt
    reserves: Sequence[Reserve]

    def of(self, group: str, set_id: str) -> Iterator[Place]:
        """The places where a set is used or held; for an unused set, where its group sleeps."""
        used = {place for place, its_set in self.set_at.get(group, {}).items() if its_set == set_id}
        used |= {
            reserve.place_id
            for reserve in self.reserves
            if (reserve.cook_group_id, reserve.set_id) == (group, set_id)
        }
        for place in self.places:
            if place.place_id in (used or self.slept_at.get(group, ())):
                yield place


def with_open_fuel(
    night_sets: tuple[NightSet, ...],
    open_fuel: OpenFuel,
    camps: Camps,
    *,
    density_g_per_l: int,
    conditions: Conditions,
    rules: RuleSettings,
    notes: Notes,
) -> tuple[NightSet, ...]:
    """The night sets; an open fuel is the fuel [mL] of the camp that needs most.

    Cook groups that share a set share its fuel.
    """

    def compute(night_set: NightSet, place: Place) -> CampChain:
        return camp_chain(
            # The chain ends a little below the sea, where water boils at most 1.5 K
            # hotter than on its shore: less than 1 % of the fuel.
            elevation_m=max(0, place.elevation_m),
            night_temperature_c=place.night_temperature_c,
            storm=night_set.storm,
            density_g_per_l=density_g_per_l,
            conditions=conditions,
            rules=rules,
        )

    chains: dict[tuple[str, str], list[_Computed]] = {}
    for night_set in night_sets:
        pointer = open_fuel.get(_key(night_set))
        if pointer is not None:
            found = chains.setdefault((pointer, night_set.set_id), [])
            found += _at_its_camps(night_set, pointer, camps, compute, notes)
    fuel_ml = {}
    for (pointer, set_id), found in chains.items():
        if found:
            most_ml, place, _ = max(found, key=lambda entry: entry[0])
            fuel_ml[pointer, set_id] = math.ceil(most_ml)
            _assume_fuel(pointer, set_id, place, math.ceil(most_ml), notes)
    _assume_inputs([entry for found in chains.values() for entry in found], camps.places, notes)
    return tuple(
        replace(s, fuel_ml=fuel_ml.get((open_fuel.get(_key(s), ""), s.set_id), s.fuel_ml))
        for s in night_sets
    )


def _at_its_camps(
    night_set: NightSet,
    pointer: str,
    camps: Camps,
    compute: Callable[[NightSet, Place], CampChain],
    notes: Notes,
) -> Iterator[_Computed]:
    """The chain of each camp of a set; a fault where a camp is out of the range of the formulas."""
    for place in camps.of(*_key(night_set)):
        try:
            chain = compute(night_set, place)
        except ValueError as error:
            _not_computed(pointer, place, error, notes)
        else:
            yield chain.chain.fuel_ml, place, chain


def _key(night_set: NightSet) -> tuple[str, str]:
    return night_set.cook_group_id, night_set.set_id


def _not_computed(pointer: str, place: Place, error: ValueError, notes: Notes) -> None:
    # A fact that is out of the range of the formula is mostly a fault by itself already.
    if not notes.faults:
        notes.fault(
            pointer,
            "fuel_not_computed",
            f"The fuel of a night at {place.place_id} cannot be computed: {error} Give the fuel.",
        )


def _assume_fuel(pointer: str, set_id: str, place: Place, fuel_ml: int, notes: Notes) -> None:
    shore = " Below sea level it is computed for sea level." if place.elevation_m < 0 else ""
    notes.assume(
        pointer,
        f"Night set {set_id}: fuel burnt, before the margin, computed from snow to fuel at "
        f"{place.place_id}, the one of its places that needs most.{shore}",
        f"{fuel_ml} mL",
        DERIVED,
    )


def _assume_inputs(chains: Sequence[_Computed], places: Sequence[Place], notes: Notes) -> None:
    """List the defaults that went into the chains, each once with all of its values."""
    for name, field, what, status in _CONDITIONS:
        values = [given for _, _, c in chains for given in c.inputs if given.name == name]
        if any(given.is_default for given in values):
            notes.assume(f"/conditions/{field}", what, _in_words(values), status)
    computed = {place.place_id: chain for _, place, chain in chains}
    for index, place in enumerate(places):
        if place.place_id in computed and place.night_temperature_c is None:
            night = [g for g in computed[place.place_id].inputs if g.name == "night_temperature"]
            notes.assume(
                pointer_to("route", "places", index, "night"),
                f"Air temperature of a night there: the standard atmosphere's less "
                f"{NIGHT_BELOW_STANDARD_K:g} K.",
                _in_words(night),
                PRACTICE,
            )


def _in_words(values: Sequence[Input]) -> str:
    """The different values of an input: one, or the least and the most."""
    if any(isinstance(given.value, str) for given in values):
        return ", ".join(dict.fromkeys(str(given.value) for given in values))
    numbers = sorted({float(given.value) for given in values})
    if values[0].name == "efficiency":
        return f"{numbers[0] * 100:g} %"
    ends = dict.fromkeys((numbers[0], numbers[-1]))
    return " to ".join(f"{number:g} {values[0].unit}" for number in ends)
