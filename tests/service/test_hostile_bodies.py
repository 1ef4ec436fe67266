"""Small bodies that cost much are answered or refused in time, and nobody else waits for them."""

import threading
import time
from collections.abc import Iterator
from itertools import pairwise

import httpx
import pytest

from tests.service.processes import RunningService, free_port

DAYS, STEPS, PEOPLE = 60, 29, 48
"""As many as the schema allows."""


def unit(item: str) -> dict:
    """A personal item that is needed on every trip."""
    return {"item_id": item, "mass": "1 kg", "volume": "1 L", "needed": "every_trip"}


def pacing() -> dict:
    """A request in which everybody goes to and fro all day, for as long as may be."""
    there_and_back = [["r", "a"] * 15, ["a", "r"] * 15]
    return {
        "route": {
            "places": [{"place_id": p, "elevation": "0 m"} for p in "ra"],
            "legs": [{"from": "r", "to": "a", "mode": "pack"}],
        },
        "calendar": [there_and_back[day % 2] for day in range(DAYS)],
        "roster": [
            {
                "person_id": f"p{n}",
                "pack_cap": "60 kg",
                "personal_kit": [unit(f"k{item}") for item in range(12)],
            }
            for n in range(PEOPLE)
        ],
    }


def many_reserves() -> dict:
    """A request with as many places and reserves as may be."""
    places = [f"c{n}" for n in range(28)]
    way = ["r", *places]
    calendar = [list(leg) for leg in pairwise(way)]
    calendar += [list(leg) for leg in pairwise(reversed(way))]
    return {
        "route": {
            "places": [{"place_id": p, "elevation": "0 m"} for p in way],
            "legs": [{"from": a, "to": b, "mode": "pack"} for a, b in pairwise(way)],
        },
        "calendar": calendar,
        "roster": [{"person_id": f"p{n}", "pack_cap": "60 kg"} for n in range(PEOPLE)],
        "reserves": [{"place": places[n % 28], "nights": 1} for n in range(100)],
    }


BODIES = {
    "plan check of nothing carried": (
        "/v1/plan-checks",
        {"request": pacing(), "plan": {"trips": []}},
    ),
    "requirements of pacing": ("/v1/requirements", pacing()),
    "comparison of pacing": (
        "/v1/comparisons",
        {"base": pacing(), "variants": [{"name": f"v{n}", "patch": {}} for n in range(20)]},
    ),
    "requirements of many reserves": ("/v1/requirements", many_reserves()),
}


@pytest.fixture(scope="module")
def service(tmp_path_factory) -> Iterator[RunningService]:
    """The service as it is run."""
    folder = tmp_path_factory.mktemp("hostile")
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
        },
        log=folder / "service.log",
        module="service",
    )
    running.start()
    httpx.post(f"{running.url}/v1/requirements", json={}, timeout=30)
    yield running
    running.process.kill()
    running.process.wait()


@pytest.mark.parametrize("name", BODIES)
def test_a_body_at_the_limits_is_answered_or_refused(service, name):
    """Whatever the schema allows costs no more than the CPU time and memory of one desk."""
    path, body = BODIES[name]
    answer = httpx.post(f"{service.url}{path}", json=body, timeout=30)
    assert answer.status_code in (200, 422), answer.text[:300]
    assert len(answer.content) < 16_000_000


def test_health_is_answered_at_once_while_the_largest_plans_are_checked(service):
    """Beside ten of the largest checks, the median answer of /healthz takes under 50 ms."""
    path, body = BODIES["plan check of nothing carried"]

    def check() -> None:
        httpx.post(f"{service.url}{path}", json=body, timeout=60)

    threads = [threading.Thread(target=check) for _ in range(10)]
    for thread in threads:
        thread.start()
    taken = []
    with httpx.Client() as caller:
        while any(thread.is_alive() for thread in threads) and len(taken) < 200:
            begin = time.monotonic()
            caller.get(f"{service.url}/healthz", timeout=10)
            taken.append(time.monotonic() - begin)
            time.sleep(0.02)
    for thread in threads:
        thread.join()
    assert len(taken) > 10
    # The median, because other work on the machine delays single answers.
    assert sorted(taken)[len(taken) // 2] < 0.05
