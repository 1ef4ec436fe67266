"""Rules of caches: how they are made, where, and how much depends on one of them."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _PREFERENCE, _ADVISORY = RuleKind.HARD, RuleKind.PREFERENCE, RuleKind.ADVISORY
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

CACHES: tuple[Rule, ...] = (
    Rule(
        "cache_deep_enough",
        "Where the request gives the depth of a cache, enough firm snow lies over it. Birds dig "
        "for food.",
        "cm",
        _HARD,
        _READ,
        "1 m",
        (Setting("cache_depth_m", 1.0, "m", 0.0, 3.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_place_safe",
        "No cache is in an avalanche path, under seracs, on a crevasse bridge or in a wind scoop.",
        "dangers",
        _HARD,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "cache_may_melt_out",
        "A cache at a place where snow melts away is protected against melting out.",
        "places",
        _ADVISORY,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_marked",
        "Each cache has enough poles or wands. Those that are listed are enough for all caches "
        "that are out at the same time.",
        "poles",
        _HARD,
        _READ,
        "1 pole each",
        (Setting("poles_per_cache", 1, "poles", 1, 10),),
        on_glaciers=True,
    ),
    Rule(
        "cache_marker_apart",
        "The poles of a cache stand a little way off it, where birds know markers.",
        "places",
        _ADVISORY,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_pole_tall_enough",
        "Where the request says how far the poles of a cache show above the snow, that is at "
        "least this margin plus the snow expected.",
        "cm",
        _ADVISORY,
        _PRACTICE,
        "1 m above the expected snow",
        (Setting("pole_margin_m", 1.0, "m", 0.0, 3.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_labelled",
        "No cache is planned without a label or without a recorded position.",
        "marks",
        _HARD,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_facts_missing",
        "For each place where things may be left, the request gives depth, poles, position and "
        "label. For all of them it gives the land manager's limit on days in the ground.",
        "facts",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "caches_diversified",
        "No place where nobody sleeps holds more than this share of a cook group's food or fuel.",
        "night sets or mL",
        _PREFERENCE,
        _PRACTICE,
        "50 %",
        (Setting("cache_share_percent", 50, "%", 10, 100),),
        on_glaciers=True,
    ),
    Rule(
        "cache_within_reach",
        "A cache from which people fetch things and return to camp on the same day is not far "
        "away.",
        "minutes",
        _PREFERENCE,
        _PRACTICE,
        "3 hours there and back",
        (Setting("cache_reach_hours", 3.0, "h", 0.5, 12.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_unlabelled_is_lost",
        "Nothing is left alone without a label. Others may take it as abandoned.",
        "units",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "cache_poles_at_hand",
        "Where marker poles or wands are listed and a plan leaves things alone, enough of them to "
        "mark a cache are there.",
        "poles",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
)
