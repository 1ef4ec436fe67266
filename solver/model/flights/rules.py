"""The rules of flights as constraints on a cabin, one function a rule, and their register."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from solver.model.cp_sat import cp_model
from solver.model.flights.cabin import Cabin, stock_worth, total
from solver.problem import CookGroup, NeedKind, Problem, Purpose

Builder = Callable[[Cabin], None]


def everything_flies_once(cabin: Cabin) -> None:
    """Everybody and every unit is on exactly one flight."""
    for person in cabin.freight.people:
        cabin.model.add_exactly_one(cabin.on[person.person_id, f] for f in cabin.numbers)
    for piece in cabin.freight.pieces:
        parts = [(cabin.units[piece.unit_id, f], 1) for f in cabin.numbers]
        cabin.model.add(total(parts) == piece.count)


def passengers_as_settled(cabin: Cabin) -> None:
    """Where a flight's passengers are named, these and no others are on it."""
    for f, flight in enumerate(cabin.freight.flights):
        if flight.person_ids is not None:
            for person in cabin.freight.people:
                aboard = person.person_id in flight.person_ids
                cabin.model.add(cabin.on[person.person_id, f] == int(aboard))


def flight_payload_held(cabin: Cabin) -> None:
    """People and cargo are within the payload [g]."""
    for f, flight in enumerate(cabin.freight.flights):
        cabin.model.add(total(cabin.mass(f)) <= flight.payload_g)


def flight_seats_held(cabin: Cabin) -> None:
    """There are no more passengers than seats."""
    for f, flight in enumerate(cabin.freight.flights):
        aboard = [(cabin.on[person.person_id, f], 1) for person in cabin.freight.people]
        cabin.model.add(total(aboard) <= flight.seats)


def flight_volume_held(cabin: Cabin) -> None:
    """Cargo is within the volume, where there is one [mL]."""
    for f, flight in enumerate(cabin.freight.flights):
        if flight.volume_ml is not None:
            cargo = [(cabin.units[p.unit_id, f], p.volume_ml) for p in cabin.freight.pieces]
            cabin.model.add(total(cargo) <= flight.volume_ml)


def flight_length_held(cabin: Cabin) -> None:
    """Nothing that is too long is aboard."""
    for f, flight in enumerate(cabin.freight.flights):
        for piece in cabin.freight.pieces:
            length_mm = piece.item.length_mm if piece.item else None
            if flight.longest_mm is not None and (length_mm or 0) > flight.longest_mm:
                cabin.model.add(cabin.units[piece.unit_id, f] == 0)


def fuel_flies_apart(cabin: Cabin) -> None:
    """No fuel is aboard with anybody whose operator does not take it."""
    for f, flight in enumerate(cabin.freight.flights):
        for piece in cabin.freight.pieces:
            if piece.holds_fuel and not flight.fuel_with_people:
                no_fuel = cabin.model.add(cabin.units[piece.unit_id, f] == 0)
                no_fuel.only_enforce_if(cabin.used[f])


def first_flight_self_sufficient(cabin: Cabin) -> None:
    """Who comes first has shelter, kit, food and fuel for some nights, and a guide."""
    if not cabin.freight.is_inbound:
        return
    problem = cabin.freight.problem
    kit = (Purpose.STOVE, Purpose.POT, Purpose.COMMUNICATOR, Purpose.MEDICAL_KIT)
    for f in cabin.numbers:
        is_first = _first_used(cabin, f)
        _can_stay(cabin, f, kit, problem.rules.whole("first_flight_nights"), is_first)
        if problem.is_guided:
            guides = [cabin.on[p.person_id, f] for p in cabin.freight.people if p.is_guide]
            cabin.model.add_bool_or(guides).only_enforce_if(is_first)


def nobody_stranded(cabin: Cabin) -> None:
    """Whoever is at the start place between flights has what a night there takes."""
    kit = (Purpose.STOVE, Purpose.COMMUNICATOR)
    for f in cabin.numbers:
        others = range(f) if cabin.freight.is_inbound else cabin.there_after(f)
        if others:
            somebody_waits = cabin.model.new_bool_var(f"somebody waits {f}")
            cabin.model.add_max_equality(somebody_waits, [cabin.used[n] for n in others])
            _can_stay(cabin, f, kit, 1, [somebody_waits])


def cargo_attended(cabin: Cabin) -> None:
    """Nothing flies with nobody there to meet it, or to load it, unless the operator does."""
    for f, flight in enumerate(cabin.freight.flights):
        if flight.loaded_by_operator:
            continue
        # In, who came before or with it; out, who leaves with it or later.
        reach = range(f + 1) if cabin.freight.is_inbound else range(f, len(cabin.used))
        hands = cp_model.LinearExpr.sum([cabin.used[number] for number in reach])
        for piece in cabin.freight.pieces:
            cabin.model.add(cabin.units[piece.unit_id, f] <= piece.count * hands)


def shelter_and_shovel_fly_first(cabin: Cabin) -> None:
    """The first people have shelter of each kind for all of them, and a shovel, aboard."""
    if not cabin.freight.is_inbound:
        return
    shelters = [i for i in cabin.freight.problem.gear if i.purpose is Purpose.SHELTER]
    shovels = [i for i in cabin.freight.problem.gear if i.purpose is Purpose.SHOVEL]
    for_trips = [i for i in shelters if i.need.kind in (NeedKind.EVERY_TRIP, NeedKind.WORN)]
    for_nights = [i for i in shelters if i not in for_trips]
    for f in cabin.numbers:
        is_first = _first_used(cabin, f)
        aboard = cp_model.LinearExpr.sum([cabin.on[p.person_id, f] for p in cabin.freight.people])
        places = total(cabin.aboard(f, shelters, places=True))
        cabin.model.add(places >= aboard).only_enforce_if(is_first)
        kinds = [for_trips, for_nights] if for_trips and for_nights else []
        for items in (shovels, *kinds):
            one = total(cabin.aboard(f, items, places=False)) >= 1
            cabin.model.add(one).only_enforce_if(is_first)


def guide_flies_last(cabin: Cabin) -> None:
    """A guide is on the last flight out with people, on a guided trip."""
    if cabin.freight.is_inbound or not cabin.freight.problem.is_guided:
        return
    guides = [p.person_id for p in cabin.freight.people if p.is_guide]
    for f in cabin.numbers:
        nobody_later = [used.negated() for used in cabin.used[f + 1 :]]
        aboard = cabin.model.add_bool_or([cabin.on[guide, f] for guide in guides])
        aboard.only_enforce_if([cabin.used[f], *nobody_later])


def own_food_flies_first(cabin: Cabin) -> None:
    """Allergic people's food comes with them or before, medication stays with its owner."""
    if cabin.freight.is_inbound:
        nights = cabin.freight.problem.rules.whole("own_food_nights")
        for person in cabin.freight.people:
            for f in cabin.numbers if person.avoids or person.reacts_to else ():
                comes: list[cp_model.BoolVarT] = [cabin.on[person.person_id, f]]
                _has_food(cabin, f, person.cook_group_id, nights, comes)
    for piece in cabin.freight.pieces:
        item = piece.item
        if item is None or item.owner_id is None:
            continue
        if item.purpose not in (Purpose.MEDICATION, Purpose.INJECTOR):
            continue
        for f in cabin.numbers:
            # In, it may not come after its owner; out, it may not go before.
            later = range(f + 1, len(cabin.freight.flights))
            for number in later if cabin.freight.is_inbound else range(f):
                away = cabin.model.add(cabin.units[piece.unit_id, number] == 0)
                away.only_enforce_if(cabin.on[item.owner_id, f])


def _first_used(cabin: Cabin, flight: int) -> list[cp_model.BoolVarT]:
    """What is true together just where a flight is the first that has people."""
    return [cabin.used[flight], *(cabin.used[before].negated() for before in range(flight))]


def _can_stay(
    cabin: Cabin,
    flight: int,
    kit: Iterable[Purpose],
    nights: int,
    when: list[cp_model.BoolVarT],
) -> None:
    """After a flight those at the start place have shelter, kit, food and fuel, if `when`."""
    model = cabin.model
    everybody = total(cabin.people_after(flight))
    places = total(cabin.things_after(flight, Purpose.SHELTER))
    model.add(places >= everybody).only_enforce_if(when)
    for purpose in kit:
        model.add(total(cabin.things_after(flight, purpose)) >= 1).only_enforce_if(when)
    for group in cabin.freight.problem.cook_groups:
        _has_food(cabin, flight, group.cook_group_id, nights, when)
    for group in cabin.freight.problem.kitchens:
        worth = stock_worth(cabin.freight.pieces, group.cook_group_id, fuel=True)
        fuel_ml = total(cabin.pieces_after(flight, worth))
        # Whole millilitres reach a need rounded up exactly when they reach the need itself.
        need = sum(
            nights
            * _fuel_of_a_night(cabin.freight.problem, each)
            * total(cabin.people_after(flight, each.cook_group_id))
            for each in cabin.freight.problem.fed_from(group)
        )
        model.add(100 * fuel_ml >= need).only_enforce_if(when)


def _has_food(
    cabin: Cabin,
    flight: int,
    cook_group_id: str,
    nights: int,
    when: list[cp_model.BoolVarT],
) -> None:
    """After a flight a cook group's people at the start place have night sets, if `when`."""
    worth = stock_worth(cabin.freight.pieces, cook_group_id, fuel=False)
    sets = total(cabin.pieces_after(flight, worth))
    people = total(cabin.people_after(flight, cook_group_id))
    cabin.model.add(sets >= nights * people).only_enforce_if(when)


def _fuel_of_a_night(problem: Problem, group: CookGroup) -> int:
    """Fuel of one person for a night at the start place with the margin [1/100 mL]."""
    named = dict(group.set_at).get(problem.start_place)
    of_sets = [
        night_set.fuel_ml
        for night_set in problem.night_sets
        if night_set.cook_group_id == group.cook_group_id and named in (None, night_set.set_id)
    ]
    return max(of_sets, default=0) * (100 + problem.fuel_margin_percent)


FLIGHT_BUILDERS: tuple[tuple[str, Builder], ...] = (
    ("everything_flies_once", everything_flies_once),
    ("passengers_as_settled", passengers_as_settled),
    ("flight_payload_held", flight_payload_held),
    ("flight_seats_held", flight_seats_held),
    ("flight_volume_held", flight_volume_held),
    ("flight_length_held", flight_length_held),
    ("fuel_flies_apart", fuel_flies_apart),
    ("cargo_attended", cargo_attended),
    ("shelter_and_shovel_fly_first", shelter_and_shovel_fly_first),
    ("guide_flies_last", guide_flies_last),
    ("first_flight_self_sufficient", first_flight_self_sufficient),
    ("nobody_stranded", nobody_stranded),
    ("own_food_flies_first", own_food_flies_first),
)
