"""Which documents stand behind the generic night sets, fuel, waste and foods of a request."""

from __future__ import annotations

from solver.rulebook.sources.naming import Named, named

DEFAULTS: Named = named(
    {
        "night_set": (
            ("mountaineering-textbook", "expedition chapter", "992 g and 3900 kcal per day"),
            ("outdoor-leader", "", "about 900 g per day, dry"),
            ("backcountry-tips", "", "907 to 1134 g per day"),
            ("cold-manual", "5-1", "4000 kcal for hard work in the cold"),
        ),
        "high_night_set": (
            ("health-manual", "altitude", "need rises by 15 to 50 %"),
            ("appetite-high", "abstract", "intake fell by 1000 kcal at 5000-6000 m"),
        ),
        "bottle_fill": (
            ("fuel-to-pack", "", "storage containers are filled to three quarters"),
            ("hiking-manual", "", "stove tanks are filled to three quarters"),
        ),
        "human_waste": (
            ("faeces-review", "abstract", "a median of 128 g per day, twice that on much fibre"),
        ),
        "foods": (
            ("food-table-28", "", "energy and nutrients of most foods, each by its entry"),
            ("food-table-legacy", "", "the same, for entries of the later table"),
        ),
    }
)
"""By what the default is of. What is not here is common practice or from memory."""
