"""Prints how long requirements take: python -m tests.benchmarks.time_requirements."""

from __future__ import annotations

import time
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.settings import Settings
from service.translation import TRANSLATION
from tests.benchmarks.guided_twelve import guided_twelve


def answer_ms(client: TestClient, document: dict[str, Any], *, times: int) -> list[float]:
    """Wall time of each answer after the first, through the whole service [ms]."""
    taken = []
    for _ in range(times + 1):
        begun = time.perf_counter()
        answer = client.post("/v1/requirements", json=document)
        taken.append((time.perf_counter() - begun) * 1000)
        assert answer.status_code == 200, answer.text
    return taken[1:]


def main() -> None:
    """Print median and best for the smallest request and for twelve people and 28 days."""
    with TemporaryDirectory() as folder:
        settings = Settings(database=Path(folder) / "plans.sqlite3")
        with TestClient(create_app(settings, TRANSLATION)) as client:
            for name, document in (
                ("smallest", SMALLEST_REQUEST),
                ("12 people, 28 days", guided_twelve()),
            ):
                taken = answer_ms(client, document, times=20)
                size_kb = len(client.post("/v1/requirements", json=document).content) / 1000
                print(
                    f"{name}: best {min(taken):.0f} ms, median {median(taken):.0f} ms of 20, "
                    f"{size_kb:.0f} kB"
                )


if __name__ == "__main__":
    main()
