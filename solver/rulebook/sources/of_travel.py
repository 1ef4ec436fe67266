"""Which documents stand behind the rules of loads, caches, calls, elevations and flights."""

from __future__ import annotations

from solver.rulebook.sources.naming import Named, named

TRAVEL: Named = named(
    {
        "sleeping_elevation_gain_held": (
            (
                "altitude-consensus-2010",
                "risk table",
                "2 days or more to 2500-3000 m, then below 500 m per night, 1 more day each 1000 m",
            ),
            (
                "travel-health-book",
                "altitude tips",
                "490 m per night above 2750 m, an extra day each 1000 m",
            ),
            ("mountaineering-textbook", "expedition chapter", "a mean of 305 m per day"),
        ),
        "sleeping_elevation_gain_cautious": (
            ("altitude-review-2017", "abstract", "300 to 500 m per night above 2500 m"),
            (
                "altitude-charity",
                "Acclimatisation",
                "300 m per night above 3000 m, a rest day each 2 to 3 days",
            ),
            ("altitude-sheet-1", "", "300 m per night above 3500 m, a rest each third day"),
            ("mountaineering-textbook", "expedition chapter", "a mean of 305 m per day"),
        ),
        "cache_deep_enough": (("peak-dispatches", "", "at least 1 m; ravens dig 0.6 to 1 m"),),
        "cache_marked": (("peak-dispatches", "", "a bamboo pole of 1.8 m in the mound"),),
        "cache_marker_apart": (
            (
                "mountaineering-textbook",
                "expedition chapter",
                "poles stand a little way off and the snow is smoothed, since ravens know markers",
            ),
        ),
        "cache_labelled": (
            ("peak-dispatches", "", "the team's tag on the pole and a recorded position"),
            ("unattended-property", "", "24 hours unattended, unless the manager allows more"),
        ),
        "cache_may_melt_out": (
            (
                "peak-dispatches",
                "",
                "deep burial also keeps a cache from melting out, low down above all",
            ),
        ),
        "communicators_of_two_kinds": (
            ("polar-weight", "", "two independent systems"),
            (
                "youth-programmes",
                "",
                "a satellite telephone with spare batteries and a reliable second system per group",
            ),
        ),
        "communicators_with_voice": (
            (
                "polar-essentials",
                "",
                "two voice telephones of one model; a text beacon does not replace the second",
            ),
        ),
        "communicator_at_camp": (
            (
                "youth-programmes",
                "",
                "each group away from the base has one, with contact morning and evening",
            ),
            ("icefield-planning", "", "communication is strongly recommended"),
            ("polar-field-manual", "pp. 25-26", "check-in calls"),
        ),
        "communicator_survives_loss": (
            (
                "polar-weight",
                "",
                "spares of what the journey depends on are kept in separate places",
            ),
        ),
        "communicators_kept_apart": (
            (
                "polar-weight",
                "",
                "spares of what the journey depends on are kept in separate places",
            ),
        ),
        "kinds_kept_apart": (
            (
                "polar-weight",
                "",
                "spares of what the journey depends on are kept in separate places",
            ),
        ),
        "second_link": (
            ("sled-rigging", "", "a second hitch, so that no sled is lost"),
            ("mountaineering-textbook-8", "figure", "the back of the sled is tied to the rope"),
        ),
        "base_wait_planned": (
            ("icefield-planning", "", "time, food and fuel in hand for flying delays"),
            ("sled-log", "", "the same"),
        ),
        "pack_light_for_body": (
            ("offence-manual", "", "30 % of body mass keeps agility"),
            ("combat-load", "", "33 % is the optimum; all that is worn counts"),
            ("infantry-manual", "7-20, 7-21", "over 45 % is for emergencies"),
        ),
        "everything_returns": (
            ("icefield-planning", "", "carry out everything"),
            ("polar-waste-annex", "art. 1", "waste is removed"),
        ),
        "sled_only_on_sled_legs": (
            ("sled-log", "", "sleds go to the middle camp only"),
            ("sled-article", "", "steep ground is easier with a pack"),
        ),
        "total_cap_held": (
            ("peak-dispatches", "", "a reported load of about 50 kg each at the start; no limit"),
            ("sled-log", "", "a reported load of about 50 kg each at the start; no limit"),
        ),
        "flight_payload_held": (
            ("aircraft-weight", "", "mass stays inside the limits"),
            ("glacier-flights", "", "everything is weighed"),
        ),
        "flight_seats_held": (
            ("aircraft-seats", "(a)(3)", "each person in an approved seat"),
            ("glacier-flights", "", "the seats of the aircraft"),
        ),
        "flight_volume_held": (
            ("glacier-flights", "", "room can run out before mass; soft small bags"),
        ),
    }
)
