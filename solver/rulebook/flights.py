"""Rules of flights: what an aircraft takes, and what must be where its people are."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_LEDGER = "without it the flights do not balance"
_PILOT = "the pilot says what an aircraft takes: change the flight in the request instead"
_ASKED = "the request says this about its flights: change the request instead"
_SCALES = "without it no payload can be computed"

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
    return Rule(rule_id, sentence, unit, RuleKind.ADVISORY, _PRACTICE, default, settings)


FLIGHTS: tuple[Rule, ...] = (
    _hard(
        "seats_for_all",
        "people",
        _DERIVED,
        "The flights of each direction together have a seat for everybody.",
        firm=_PILOT,
    ),
    _hard(
        "flying_mass_known",
        "people",
        _PRACTICE,
        "Where there are flights, everybody's flying mass is known: as weighed for the aircraft, "
        "or body mass plus an allowance for clothing.",
        firm=_SCALES,
    ),
    _caution(
        "flying_mass_weighed",
        "people",
        "Everybody who flies was weighed in clothes and boots. Their flying mass is not an "
        "estimate from body mass.",
    ),
    _hard(
        "payload_for_people",
        "g",
        _DERIVED,
        "The payloads of each direction together lift everybody, and at least one payload is "
        "enough for each single person. The flying mass of anybody who was not weighed is body "
        "mass plus this much clothing.",
        Setting("worn_flying_kg", 9, "kg", 0, 30, whole=False),
        default="9 kg of clothing",
        firm=_PILOT,
    ),
    _caution(
        "cargo_lengths_given",
        "things",
        "Where the request gives the longest object that an aircraft takes, it also gives the "
        "length of every object that flies.",
    ),
    _hard(
        "everything_flies_once",
        "units",
        _DERIVED,
        "In each direction that has flights, every person is on exactly one of them. So is every "
        "unit at the start place before day 1 (fly-in) or at the end (fly-out).",
        firm=_LEDGER,
    ),
    _hard(
        "passengers_as_settled",
        "people",
        _DERIVED,
        "Where the request says who is on a flight, exactly those people are on it.",
        firm=_ASKED,
    ),
    _hard(
        "flight_payload_held",
        "g",
        _READ,
        "The people, the lunch that they bring on the fly-in, and the cargo of a flight weigh "
        "together at most its payload.",
        firm=_PILOT,
    ),
    _hard(
        "flight_seats_held",
        "people",
        _READ,
        "A flight has no more passengers than seats.",
        firm=_PILOT,
    ),
    _hard(
        "flight_volume_held",
        "mL",
        _READ,
        "The cargo of a flight takes at most the flight's volume, where that is given.",
        firm=_PILOT,
    ),
    _hard(
        "flight_length_held",
        "mm",
        _PRACTICE,
        "Nothing on a flight is longer than the longest object that it takes.",
        firm=_PILOT,
    ),
    _caution(
        "outbound_payload_lowered",
        "g",
        "A fly-out uses at most this share of its payload, because soft snow and elevation can "
        "reduce what an aircraft lifts.",
        Setting("outbound_payload_percent", 90, "%", 50, 100),
        default="90 %",
    ),
    _hard(
        "fuel_flies_apart",
        "containers",
        _PRACTICE,
        "Fuel containers that are not empty, those in the gear as well, fly with passengers only "
        "where the operator agrees.",
        firm=_ASKED,
    ),
    _hard(
        "first_flight_self_sufficient",
        "units",
        _PRACTICE,
        "The first people to fly in have shelter, a stove, a pot, a communicator, a medical kit, "
        "and their cook groups' food and fuel for this many nights. All of it comes on their "
        "flight or an earlier one. On a guided expedition one of them is a guide.",
        Setting("first_flight_nights", 3, "nights", 0, 14),
        default="3 nights",
    ),
    _hard(
        "nobody_stranded",
        "units",
        _PRACTICE,
        "After every later fly-in and every fly-out, the people at the start place have shelter, "
        "a stove, a communicator, and food and fuel for one night.",
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
        "When somebody with allergens to avoid flies in, the cook group's food for this many "
        "nights is on the same flight or already there. Personal medication is never away from "
        "its owner.",
        Setting("own_food_nights", 3, "nights", 0, 14),
        default="3 nights",
    ),
)
