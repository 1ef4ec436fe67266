"""Rules of caches: how they are made, where, and how much depends on one of them."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _PREFERENCE, _CAUTION = RuleKind.HARD, RuleKind.PREFERENCE, RuleKind.CAUTION
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

CACHES: tuple[Rule, ...] = (
    Rule(
        "cache_deep_enough",
        "Where the depth of a cache is told, enough firm snow lies over it, for birds dig.",
        "cm",
        _HARD,
        _READ,
        "1 m",
        (Setting("cache_depth_m", 1.0, "m", 0.0, 3.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_place_safe",
        "No cache is in the path of an avalanche, under seracs, on a crevasse bridge or in a "
        "wind scoop.",
        "dangers",
        _HARD,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "cache_may_melt_out",
        "A cache where snow melts away is guarded against it.",
        "places",
        _CAUTION,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_marked",
        "Each cache has a pole or wand, and of those that are listed there are enough for all "
        "places that are meant to hold a cache at the same time.",
        "poles",
        _HARD,
        _READ,
        "1 pole each",
        (Setting("poles_per_cache", 1, "poles", 1, 10),),
        on_glaciers=True,
    ),
    Rule(
        "cache_pole_tall_enough",
        "Where it is told how far the poles of a cache show, that is the margin and the snow "
        "that is expected.",
        "cm",
        _CAUTION,
        _PRACTICE,
        "1 m above expected snow",
        (Setting("pole_margin_m", 1.0, "m", 0.0, 3.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_labelled",
        "No cache is meant to be without a label or without a position fix.",
        "marks",
        _HARD,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_facts_missing",
        "Of each place where things may be left the request tells depth, poles, position and "
        "label, and of all the land manager's limit on days in the ground.",
        "facts",
        _CAUTION,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "caches_diversified",
        "No place that is left alone holds more than its share of a cook group's food or fuel.",
        "night sets or mL",
        _PREFERENCE,
        _PRACTICE,
        "50 %",
        (Setting("cache_share_percent", 50, "%", 10, 100),),
        on_glaciers=True,
    ),
    Rule(
        "cache_within_reach",
        "What is fetched from a cache, out and back from a camp, is a short way off.",
        "minutes",
        _PREFERENCE,
        _PRACTICE,
        "3 hours there and back",
        (Setting("cache_reach_hours", 3.0, "h", 0.5, 12.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "cache_unlabelled_is_lost",
        "What a plan leaves alone without a label is taken by others as free to take.",
        "units",
        _CAUTION,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "cache_poles_at_hand",
        "Where marker poles or wands are listed and a plan leaves things alone, as many stand "
        "with them as mark a cache.",
        "poles",
        _CAUTION,
        _PRACTICE,
        on_glaciers=True,
    ),
)
