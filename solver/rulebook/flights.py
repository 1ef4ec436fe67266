"""Rules of flights: what an aircraft takes, and what must be where its people are."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_LEDGER = "without it the flights do not add up"
_PILOT = "what an aircraft takes is the pilot's word: change the flight in the request instead"
_ASKED = "it holds what the request says of its flights: change that instead"
_SCALES = "without it no payload can be reckoned"

_DERIVED, _PRACTICE, _READ = SourceStatus.DERIVED, SourceStatus.PRACTICE, SourceStatus.READ


def _hard(
    rule_id: str,
    unit: str,
    source: SourceStatus,
    sentence: str,
    *settings: Setting,
    default: str | None = None,
    firm: str = "",
) -> Rule:
    return Rule(rule_id, sentence, unit, RuleKind.HARD, source, default, settings, firm=firm)


def _caution(
    rule_id: str,
    unit: str,
    sentence: str,
    *settings: Setting,
    default: str | None = None,
) -> Rule:
    return Rule(rule_id, sentence, unit, RuleKind.CAUTION, _PRACTICE, default, settings)


FLIGHTS: tuple[Rule, ...] = (
    _hard(
        "seats_for_all",
        "people",
        _DERIVED,
        "All flights of a direction together have a seat for everybody.",
        firm=_PILOT,
    ),
    _hard(
        "flying_mass_known",
        "people",
        _PRACTICE,
        "Where there are flights, everybody's mass is known: as weighed for the aircraft, else "
        "body mass with an allowance for what is worn.",
        firm=_SCALES,
    ),
    _caution(
        "flying_mass_weighed",
        "people",
        "Everybody who flies was weighed in clothes and boots, not reckoned from body mass.",
    ),
    _hard(
        "payload_for_people",
        "g",
        _DERIVED,
        "All flights of a direction together lift everybody, and some flight each one alone; "
        "who was not weighed for the aircraft is taken as body mass and so much worn.",
        Setting("worn_flying_kg", 9, "kg", 0, 30, whole=False),
        default="9 kg worn",
        firm=_PILOT,
    ),
    _caution(
        "cargo_lengths_told",
        "things",
        "Where an aircraft's longest thing is told, so is the length of every thing that flies.",
    ),
    _hard(
        "everything_flies_once",
        "units",
        _DERIVED,
        "In each direction that has flights everybody is on exactly one, and so is every unit "
        "that stands at the start before day 1, or there at the end.",
        firm=_LEDGER,
    ),
    _hard(
        "passengers_as_settled",
        "people",
        _DERIVED,
        "Where the request says who is on a flight, those are on it and nobody else.",
        firm=_ASKED,
    ),
    _hard(
        "flight_payload_held",
        "g",
        _READ,
        "People as weighed, their first lunch on the way in, and cargo are together at most a "
        "flight's payload.",
        firm=_PILOT,
    ),
    _hard(
        "flight_seats_held",
        "people",
        _READ,
        "A flight has at most as many passengers as seats.",
        firm=_PILOT,
    ),
    _hard(
        "flight_volume_held",
        "mL",
        _READ,
        "Cargo takes at most a flight's volume where that is told.",
        firm=_PILOT,
    ),
    _hard(
        "flight_length_held",
        "mm",
        _READ,
        "Nothing on a flight is longer than the longest thing that it takes.",
        firm=_PILOT,
    ),
    _caution(
        "outbound_payload_lowered",
        "g",
        "Soft snow and height may lower what is lifted on the way out: an outbound flight has at "
        "most this share of its payload.",
        Setting("outbound_payload_percent", 90, "%", 50, 100),
        default="90 %",
    ),
    _hard(
        "fuel_flies_apart",
        "containers",
        _PRACTICE,
        "Containers with fuel in them fly with passengers only where the operator agrees.",
        firm=_ASKED,
    ),
    _hard(
        "first_flight_self_sufficient",
        "units",
        _PRACTICE,
        "With the first flight in that has people, or before it, come shelter for them, a stove, "
        "a pot, a communicator, a medical kit, their cook groups' food and fuel for so many "
        "nights, and one of them is a guide on a guided trip.",
        Setting("first_flight_nights", 3, "nights", 0, 14),
        default="3 nights",
    ),
    _hard(
        "nobody_stranded",
        "units",
        _PRACTICE,
        "After every later flight in, and every flight out, those at the start place have "
        "shelter, a stove, a communicator, and a night of their cook groups' food and fuel.",
    ),
    _hard(
        "cargo_attended",
        "units",
        _PRACTICE,
        "Somebody of the party meets cargo that comes in and loads cargo that goes out, except on "
        "a flight that the operator loads.",
    ),
    _hard(
        "shelter_and_shovel_fly_first",
        "units",
        _PRACTICE,
        "The first flight in that has people has aboard shelter for each of them and a shovel, "
        "and where shelters for nights and for trips are listed, one of each.",
    ),
    _hard(
        "guide_flies_last",
        "guides",
        _PRACTICE,
        "On a guided trip a guide is on the last flight out that has people.",
    ),
    _hard(
        "own_food_flies_first",
        "night sets",
        _PRACTICE,
        "Somebody with allergens to avoid finds the cook group's food for so many nights on the "
        "same flight in or there already, and personal medication is never away from its owner.",
        Setting("own_food_nights", 3, "nights", 0, 14),
        default="3 nights",
    ),
)
