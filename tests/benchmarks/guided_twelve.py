"""A request for twelve people and twenty-eight days, in which everybody is different."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

CAMPS = 6


def guided_twelve() -> dict[str, Any]:
    """Four rope teams with a kitchen each relay their loads to six camps and come down."""
    places = [{"place_id": "road", "elevation": "1450 m"}]
    places += [
        {"place_id": f"camp-{n}", "elevation": f"{1600 + 620 * n} m", "storm_nights": 1}
        for n in range(1, CAMPS + 1)
    ]
    way = [place["place_id"] for place in places]
    calendar = []
    for here, there in pairwise(way):
        calendar += [[here, there, here], [here, there, here], [here, there], [there]]
    calendar += [[way[6]], [way[6], way[5], way[4]], [way[4], way[3], way[2]], way[2::-1]]
    return {
        "route": {
            "places": places,
            "legs": [
                {"from": here, "to": there, "distance": "6 km", "mode": "sled" if n < 3 else "pack"}
                for n, (here, there) in enumerate(pairwise(way))
            ],
        },
        "calendar": calendar,
        "roster": [
            {
                "person_id": f"person-{n}",
                "body_mass": f"{58 + 2 * n} kg",
                "age_years": 25 + n,
                "height": f"{164 + n} cm",
                "sex": ("male", "female")[n % 2],
                "pack_cap": "27 kg",
                "sled_cap": "40 kg",
                "rope_team": f"rope-{n // 3}",
                "cook_group": f"kitchen-{n // 3}",
            }
            for n in range(12)
        ],
        "gear": [{"item_id": "rope", "mass": "3.2 kg", "volume": "5 L", "needed": "every_trip"}],
    }
