"""Rules of parties: who goes together, with which kit, and who could be taken down."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ


def _rule(
    rule_id: str,
    unit: str,
    sentence: str,
    default: str = "",
    *settings: Setting,
    kind: RuleKind = RuleKind.HARD,
    source: SourceStatus = _PRACTICE,
    on_glaciers: bool = True,
) -> Rule:
    return Rule(
        rule_id, sentence, unit, kind, source, default or None, settings, on_glaciers=on_glaciers
    )


PARTIES: tuple[Rule, ...] = (
    _rule(
        "kit_listed",
        "units",
        "The gear lists at least one stove, one pot, one shelter and one communicator.",
    ),
    _rule(
        "party_kit_complete",
        "units",
        "Every party on a crevassed leg has a rope and a rescue kit for each of its rope teams. "
        "It also has a shovel, a shelter, a medical kit, a communicator and navigation.",
    ),
    _rule(
        "rescue_kits_enough",
        "units",
        "Every party on a crevassed leg has enough rescue kits for the person at each end of its "
        "rope to have one.",
        "2 rescue kits",
        Setting("least_rescue_kits", 2, "rescue kits", 1, 6),
    ),
    _rule(
        "party_big_enough",
        "people",
        "At least this many roped people travel together on a crevassed leg. Fewer are enough "
        "where the leader calls the hazard low.",
        "3 people, 2 where the hazard is low",
        Setting("least_party_people", 3, "people", 1, 8),
        Setting("least_party_low_hazard_people", 2, "people", 1, 8),
    ),
    _rule(
        "guide_with_party",
        "guides",
        "On a guided expedition, every party on a crevassed leg has a guide.",
    ),
    _rule(
        "guide_ratio_held",
        "people",
        "A party on a crevassed leg has at most this many clients per guide. The permit, the "
        "contract or the law sets the number.",
        "3 clients per guide",
        Setting("clients_per_guide", 3, "clients", 1, 12),
    ),
    _rule(
        "stay_low_with_one_guide",
        "guides",
        "On an expedition with two or more guides, nobody sleeps above the highest place that "
        "sleds reach once all guides but one have gone down for good.",
        "2 guides",
        Setting("least_guides_high", 2, "guides", 1, 6),
    ),
    _rule(
        "stoves_enough",
        "units",
        "There is one stove for each kitchen, plus this many spares. The people of one cook group "
        "share a kitchen, even if their menus differ.",
        "1 spare stove",
        Setting("spare_stoves", 1, "stoves", 0, 6),
        source=_READ,
    ),
    _rule(
        "pots_enough",
        "units",
        "Each cook group has a pot of its own. People with different menus in it share the pot.",
    ),
    _rule(
        "communicators_of_two_kinds",
        "kinds",
        "The expedition has communicators of several independent kinds.",
        "2 kinds",
        Setting("least_communicator_kinds", 2, "kinds", 1, 5),
        source=_READ,
    ),
    _rule(
        "communicators_with_voice",
        "units",
        "Far from help, several communicators carry voice. A kind called beacon, messenger, text "
        "or tracker carries none.",
        "2 with voice",
        Setting("least_voice_communicators", 2, "units", 0, 6),
        kind=RuleKind.ADVISORY,
        source=_READ,
    ),
    _rule(
        "lighters_in_three_places",
        "places",
        "Lighters or matches are kept in several places. All that one person has counts as one "
        "place.",
        "3 places",
        Setting("lighter_places", 3, "places", 1, 12),
    ),
    _rule(
        "shelter_for_all",
        "places",
        "Each night, the shelters that must be where people sleep have room for all of them.",
    ),
    _rule(
        "medication_on_person",
        "units",
        "Personal medication is with its owner on every trip and every night.",
        on_glaciers=False,
    ),
    _rule(
        "injector_doubled",
        "units",
        "A person who has an injector carries it on every trip. A guide of the same rope team "
        "carries one too, or any other member where there is no guide.",
        on_glaciers=False,
    ),
    _rule(
        "injector_listed",
        "people",
        "Everybody who reacts even to traces of an allergen has an injector in the gear.",
        kind=RuleKind.ADVISORY,
        on_glaciers=False,
    ),
    _rule(
        "second_link",
        "sleds",
        "A sled that is hauled over a crevassed leg also hangs on a second link.",
        kind=RuleKind.ADVISORY,
        source=_READ,
    ),
    _rule(
        "spare_sled_kept",
        "sleds",
        "While people sleep beyond a sled leg, a sled is left on their way home and the gear has "
        "a drag tarp. Then somebody who cannot walk can be hauled out.",
        "1 sled",
        Setting("spare_sleds", 1, "sleds", 0, 6),
        kind=RuleKind.PREFERENCE,
    ),
    _rule(
        "evacuation_possible",
        "nights",
        "Each night, anybody who falls ill can be taken down by able companions while the others "
        "stay. On a guided expedition one of the companions is a guide. Both parties have enough "
        "people and kit.",
        "2 able companions",
        Setting("evacuation_companions", 2, "people", 1, 6),
        kind=RuleKind.ADVISORY,
    ),
    _rule(
        "evacuation_party",
        "people",
        "For each person whom the request asks about, the answer says who would go down and with "
        "what.",
        kind=RuleKind.ADVISORY,
    ),
    _rule(
        "evacuation_load_fits",
        "g",
        "The people who take somebody down can carry or haul their own things, the kit, and food "
        "and fuel for some nights. The person who is ill carries little of it.",
        "2 nights, 8 kg on the person who is ill",
        Setting("evacuation_nights", 2, "nights", 0, 7),
        Setting("evacuee_load_kg", 8, "kg", 0, 40),
        kind=RuleKind.ADVISORY,
    ),
    _rule(
        "crevasse_hazard_given",
        "legs",
        "The request gives the crevasse hazard of every leg that is travelled. If it gives none, "
        "no rule of glaciers is checked.",
        kind=RuleKind.ADVISORY,
        on_glaciers=False,
    ),
)
