"""A comparison of fifty large expeditions is queued or refused, and never fills the memory."""

import time
from collections import Counter
from itertools import pairwise
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.service.processes import RunningService, free_port, parent_of, solving_under

QUEUE_LIMIT = 20
WORKERS = 2
SOLVE_MB = 400
DESKS, DESK_MB = 2, 256
PROCESSES_MB = 500
"""What the web process and the processes that children are forked from may have [MB]."""
SECONDS = 10.0
"""How long the service is watched while it solves [s]."""

CARRIES = (1, 2, 2, 2, 2, 1)


def xl_request() -> dict[str, Any]:
    """24 people, 45 days, seven camps, 300 pieces of gear of their own and shared."""
    places = [{"place_id": "c0", "elevation": "2200 m"}]
    places += [
        {"place_id": f"c{n}", "elevation": f"{2200 + 450 * n} m", "storm_nights": 1}
        for n in range(1, len(CARRIES) + 1)
    ]
    way = [place["place_id"] for place in places]
    calendar: list[list[str]] = []
    for (low, high), carries in zip(pairwise(way), CARRIES, strict=True):
        calendar += [[low, high, low]] * carries + [[low, high], [high]]
    down = [[high, low, high, low] for low, high in reversed([*pairwise(way)])]
    calendar += [[way[-1]]] * (45 - len(calendar) - len(down)) + down
    return {
        "route": {
            "places": places,
            "legs": [
                {"from": low, "to": high, "distance": "4 km", "mode": "sled" if n < 3 else "pack"}
                for n, (low, high) in enumerate(pairwise(way))
            ],
        },
        "calendar": calendar,
        "roster": [
            {
                "person_id": f"m{n}",
                "body_mass": f"{58 + n} kg",
                "pack_cap": "27 kg",
                "sled_cap": "40 kg",
                "rope_team": f"t{n // 4}",
                "cook_group": f"t{n // 4}",
                "personal_kit": [
                    {
                        "item_id": f"own-{k}",
                        "mass": f"{400 + 10 * k + n} g",
                        "volume": "2 L",
                        "needed": "every_night",
                    }
                    for k in range(10)
                ],
            }
            for n in range(24)
        ],
        "gear": [
            {
                "item_id": f"piece-{n}",
                "mass": f"{300 + n} g",
                "volume": "1 L",
                "needed": "every_night",
            }
            for n in range(60)
        ],
        "options": {"time_limit": "20 s"},
    }


def fifty_of(base: dict[str, Any]) -> dict[str, Any]:
    """Fifty variants, each with another cap of somebody."""
    variants = [
        {
            "name": f"v{n}",
            "edits": [{"edit": "cap", "person_id": f"m{n % 24}", "pack_cap": f"{20 + n / 10} kg"}],
        }
        for n in range(50)
    ]
    return {"base": base, "variants": variants}


def tree_of(process: int) -> list[int]:
    """A process and all below it."""
    numbers = [int(entry.name) for entry in Path("/proc").iterdir() if entry.name.isdigit()]
    parents = {number: parent_of(number) for number in numbers}
    found = [process]
    for one in found:
        found += [child for child, parent in parents.items() if parent == one]
    return found


def memory_mb(process: int) -> float:
    """The memory of a process, with its part of what it shares [MB]; 0 where it has ended."""
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0.0
    return next((int(one.split()[1]) / 1000 for one in lines if one.startswith("Pss:")), 0.0)


@pytest.fixture
def service(tmp_path):
    """The service as it is run, with room for twenty plans that wait."""
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(tmp_path / "plans.sqlite3"),
            "HAULWRIGHT_QUEUE_LIMIT": str(QUEUE_LIMIT),
            "HAULWRIGHT_SOLVE_WORKERS": str(WORKERS),
            "HAULWRIGHT_SOLVE_MEMORY_MB": str(SOLVE_MB),
        },
        log=tmp_path / "log",
        module="service",
    )
    running.start()
    yield running
    running.process.kill()
    running.process.wait()


@pytest.mark.slow
def test_fifty_large_variants_never_fill_the_memory(service):
    """Few wait, two are solved at once, and the rows of all others say that they were refused.

    All processes together stay within what the settings say, which fifty such solves would not.
    """
    body = fifty_of(xl_request())
    answer = httpx.post(f"{service.url}/v1/comparisons", json=body, timeout=120)
    assert answer.status_code == 202, answer.text
    states = Counter(row["state"] for row in answer.json()["rows"])
    assert states["queued"] <= QUEUE_LIMIT
    assert states["not_accepted"] > 0
    assert states["faulty"] == 0
    most_mb, solve_mb, at_once = 0.0, 0.0, 0
    until = time.monotonic() + SECONDS
    while time.monotonic() < until:
        solving = solving_under(service.process.pid, "do_stored_work")
        at_once = max(at_once, len(solving))
        solve_mb = max(solve_mb, *map(memory_mb, solving), 0.0)
        most_mb = max(most_mb, sum(map(memory_mb, tree_of(service.process.pid))))
        time.sleep(0.3)
    limit_mb = WORKERS * SOLVE_MB + DESKS * DESK_MB + PROCESSES_MB
    assert at_once == WORKERS
    assert 0.0 < most_mb < limit_mb, (states, most_mb, solve_mb)
    assert len(answer.json()["rows"]) * solve_mb > limit_mb
    assert httpx.get(f"{service.url}/healthz", timeout=30).status_code == 200
