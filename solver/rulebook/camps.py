"""Rules of camps and caches: what is there to live on, also when a store is lost."""

from __future__ import annotations

from solver.rulebook.kinds import DECISION, Rule, RuleKind, Setting, SourceStatus


def _hard(
    rule_id: str,
    unit: str,
    source: SourceStatus,
    sentence: str,
    default: str | None = None,
    *settings: Setting,
    instead: tuple[str, ...] = (),
) -> Rule:
    return Rule(
        rule_id,
        sentence,
        unit,
        RuleKind.HARD,
        source,
        default,
        settings,
        on_glaciers=True,
        instead=instead,
    )


_READ, _PRACTICE = SourceStatus.READ, SourceStatus.PRACTICE

CAMPS: tuple[Rule, ...] = (
    _hard(
        "stove_when_far",
        "units or mL",
        _PRACTICE,
        "A party that goes more than this many hours away from the camps of its day carries a "
        "stove, a pot, and this much fuel for each person.",
        "3 hours, 100 mL per person",
        Setting("away_hours", 3.0, "hours", 0.0, 24.0, whole=False),
        Setting("away_fuel_ml", 100, "mL", 0, 1000),
        instead=(
            "give the party a stove, a pot and a fuel container that ride every trip",
            "shorten the carry, or put a camp nearer",
        ),
    ),
    _hard(
        "kitchen_for_each_group",
        "units",
        _PRACTICE,
        "Each night, a camp has a stove and a pot for every cook group that sleeps there. People "
        "with a menu of their own use the stove and pot of their kitchen.",
    ),
    _hard(
        "communicator_at_camp",
        "units",
        _READ,
        "Each night, every camp where people sleep has a communicator, or one of them wears one.",
    ),
    _hard(
        "fuel_in_two_containers",
        "containers",
        _PRACTICE,
        "When a cook group that burns fuel arrives for a stay, its fuel there is in at least two "
        "containers.",
        "2 containers",
        instead=(
            "take fuel in smaller containers",
            f"{DECISION} hold a larger reserve there",
        ),
    ),
    Rule(
        "fuel_shares_even",
        "When a cook group arrives for a stay, no single container holds more than this share of "
        "the group's fuel there.",
        "mL",
        RuleKind.PREFERENCE,
        _PRACTICE,
        "50 %",
        (Setting("container_share_percent", 50, "%", 1, 100),),
        on_glaciers=True,
    ),
    _hard(
        "turn_round_stock_held",
        "night sets or mL",
        _PRACTICE,
        "Unless it travels homeward the next day, a cook group has food and fuel for more than "
        "this many nights at the two places where it sleeps tonight and tomorrow, or for all "
        "nights that remain. At a road head this is not asked.",
        "2 nights",
        Setting("turn_round_nights", 2, "nights", 0, 14),
        instead=(
            "go down or fetch stock a day sooner",
            f"{DECISION} hold a larger reserve at the camp",
        ),
    ),
    _hard(
        "cache_loss_survived",
        "night sets or mL",
        _PRACTICE,
        "If any one cache on the way home is lost, a cook group still has food and fuel for this "
        "many nights at its camp and on the way home.",
        "1 night",
        Setting("cache_loss_nights", 1, "nights", 0, 14),
        instead=(
            "leave what stands on the way home in two places",
            f"{DECISION} hold a reserve at the camp itself",
        ),
    ),
    _hard(
        "cache_time_limited",
        "units",
        _PRACTICE,
        "No food, fuel or gear is left for more than this many days at a place that nobody visits. "
        "The start is excepted, and so are poles, wands, and sacks of trash and waste.",
        "14 days",
        Setting("cache_days", 14, "days", 1, 60),
        instead=(
            "visit the place in between",
            "take down what would lie there",
        ),
    ),
)
