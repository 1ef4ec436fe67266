"""Why no way of sharing out people and cargo over flights will do, in words with numbers."""

from __future__ import annotations

from solver.model.flights.freight import Freight, wearers
from solver.outcome import Conflict, remedies_of
from solver.problem import Purpose
from solver.rulebook import rule
from solver.rulebook.kinds import DECISION

_KIT = (
    Purpose.SHELTER,
    Purpose.STOVE,
    Purpose.POT,
    Purpose.COMMUNICATOR,
    Purpose.MEDICAL_KIT,
)


def describe_conflicts(freight: Freight, rule_ids: tuple[str, ...]) -> tuple[Conflict, ...]:
    """One conflict for each rule that takes part; that all fly once goes without saying."""
    others = tuple(rule_id for rule_id in rule_ids if rule_id != "everything_flies_once")
    return tuple(_conflict(freight, rule_id, others) for rule_id in others or rule_ids)


def _conflict(freight: Freight, rule_id: str, together: tuple[str, ...]) -> Conflict:
    way = freight.direction.way
    words, instead = _figures(freight, rule_id)
    with_what = ""
    if len(together) > 1:
        named = ", ".join(other for other in together if other != rule_id)
        with_what = f" It cannot be kept together with {named}."
    message = f"Flights {way}: {words}{with_what} {rule(rule_id).sentence}"
    return Conflict(rule_id, message, remedies_of(instead))


def _figures(freight: Freight, rule_id: str) -> tuple[str, tuple[str, ...]]:
    """What there is to say of one rule in numbers, and what would be allowed instead."""
    way, flights = freight.direction.way, freight.flights
    match rule_id:
        case "flight_payload_held":
            payload_g = sum(flight.payload_g for flight in flights)
            return _over(
                freight.total_g - payload_g,
                f"people and cargo are {_kg(freight.total_g)}, all payloads {_kg(payload_g)}",
                "kg",
                (f"one more flight {way}", "less gear, food or fuel"),
            )
        case "flight_seats_held":
            seats = sum(flight.seats for flight in flights)
            return _over(
                len(freight.people) - seats,
                f"there are {len(freight.people)} people and {seats} seats",
                "people",
                (f"one more flight {way}",),
            )
        case "flight_volume_held":
            return _volumes(freight)
        case "flight_length_held":
            return _lengths(freight)
        case "fuel_flies_apart":
            fuel = sum(p.count for p in freight.pieces if p.holds_fuel)
            word = "container" if fuel == 1 else "containers"
            return f"{fuel} {word} with fuel must fly without passengers.", (
                "a flight that takes fuel with people, once the operator agrees",
                f"a flight {way} without passengers"
                + (", before the first with people" if freight.is_inbound else ""),
            )
        case "first_flight_self_sufficient" | "nobody_stranded":
            missing = [_words(p) for p in _KIT if not _has(freight, p)]
            if missing:
                named = ", ".join(missing)
                return f"nothing that flies is {named}.", (f"with {named} on the gear list",)
            return _stock(freight)
        case "own_food_flies_first":
            return _stock(freight)
        case "passengers_as_settled":
            return "with the passengers as named there is no way to load.", (
                "other passengers, or none named so that the plan chooses",
            )
    return _hands_and_shelter(freight, rule_id)


def _hands_and_shelter(freight: Freight, rule_id: str) -> tuple[str, tuple[str, ...]]:
    """Who must be there for cargo, what the first people have aboard, and who leaves last."""
    match rule_id:
        case "cargo_attended":
            return "cargo would fly where none of the party is there to load or meet it.", (
                "a flight with people before it" if freight.is_inbound else "people on the last",
                "the operator loads and meets it: loaded_by_operator",
            )
        case "shelter_and_shovel_fly_first":
            missing = [_words(p) for p in (Purpose.SHELTER, Purpose.SHOVEL) if not _has(freight, p)]
            if missing:
                named = ", ".join(missing)
                return f"nothing that flies is {named}.", (f"with {named} on the gear list",)
            return "shelter and a shovel do not go in with the first people.", (
                "more payload or room on the first flight with people",
            )
        case "guide_flies_last":
            return "no guide can be on the last flight with people.", (
                "a guide on the last fly-out with people",
            )
    return "", ()


def _over(
    amount: int, words: str, unit: str, instead: tuple[str, ...]
) -> tuple[str, tuple[str, ...]]:
    if amount <= 0:
        return f"{words}: enough in all, but whole units and people do not go in.", instead
    over = {"kg": _kg(amount), "L": _litres(amount)}.get(unit, f"{amount} {unit}")
    return f"{words}: {over} too many.", instead


def _volumes(freight: Freight) -> tuple[str, tuple[str, ...]]:
    way = freight.direction.way
    cargo_ml = sum(piece.count * piece.volume_ml for piece in freight.pieces)
    rooms = [flight.volume_ml for flight in freight.flights]
    instead = (f"one more flight {way}", "a flight with more room")
    told_ml = [room for room in rooms if room is not None]
    words = f"cargo takes {_litres(cargo_ml)}, flights have room for {_litres(sum(told_ml))}"
    # A flight without a figure takes any volume, so there is no total to be over.
    over_ml = cargo_ml - sum(told_ml) if len(told_ml) == len(rooms) else 0
    return _over(over_ml, words, "L", instead)


def _lengths(freight: Freight) -> tuple[str, tuple[str, ...]]:
    longest = [f.longest_mm for f in freight.flights]
    most = max((mm for mm in longest if mm is not None), default=0)
    too_long = [p for p in freight.pieces if p.item and (p.item.length_mm or 0) > most]
    if None in longest or not too_long:
        return "long things go into some flights only.", ("a flight that takes them",)
    named = ", ".join(f"{p.unit_id} ({p.item.length_mm} mm)" for p in too_long if p.item)
    return f"{named} go into none, the longest that goes in is {most} mm.", (
        f"a flight {freight.direction.way} that takes them",
        "the same in shorter parts",
    )


def _stock(freight: Freight) -> tuple[str, tuple[str, ...]]:
    """Night sets and fuel of each cook group, all together."""
    told = []
    for group in freight.problem.cook_groups:
        own = [p for p in freight.pieces if p.cook_group_id == group.cook_group_id]
        people = len(freight.problem.members(group.cook_group_id))
        sets = sum(p.count * p.sets for p in own)
        fuel_ml = sum(p.count * p.fuel_ml for p in own)
        fuel = "" if group.kitchen_of else f" and {_litres(fuel_ml)} of fuel"
        told.append(
            f"cook group {group.cook_group_id} of {people} has {sets} night sets{fuel} in all"
        )
    return "; ".join(told) + ".", (
        "more payload on the first flight with people, or a cargo flight before it"
        if freight.is_inbound
        else "fewer flights out, or more food and fuel left for waiting",
        f"{DECISION} a larger reserve for waiting at the start place",
    )


def _has(freight: Freight, purpose: Purpose) -> bool:
    stands = any(piece.item and piece.item.purpose is purpose for piece in freight.pieces)
    gear = freight.problem.gear
    return stands or any(item.purpose is purpose and wearers(freight, item) for item in gear)


def _words(purpose: Purpose) -> str:
    word = purpose.value.replace("_", " ")
    return f"a {word}"


def _kg(mass_g: int) -> str:
    return f"{mass_g / 1000:.1f} kg"


def _litres(volume_ml: int) -> str:
    return f"{volume_ml / 1000:.1f} L"
