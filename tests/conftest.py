"""What every test may ask for: the folder of outside data, and the same random cases each time."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

# The same cases on every run: a red run can be repeated, and a slow machine is not a failure.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")


_LONGEST = (
    "tests/reliability/test_jobs.py",
    "tests/reliability/test_api_trials.py",
    "tests/service/test_stress_tests.py",
    "tests/service/test_whole_service.py",
    "tests/service/test_generated_client.py",
    "tests/pipeline/test_planted_faults.py",
    "tests/pipeline/test_losses.py",
)
"""Files with tests of half a minute and more."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the longest: one of them at the end would leave the other workers without work."""
    items.sort(key=lambda item: not item.nodeid.startswith(_LONGEST))


@pytest.fixture(scope="session")
def outside_data() -> Path:
    """Folder of data that the repository does not carry; the test skips where there is none."""
    named = os.environ.get("HAULWRIGHT_OUTSIDE_DATA")
    if not named:
        pytest.skip("HAULWRIGHT_OUTSIDE_DATA does not name a folder of outside data")
    folder = Path(named)
    if not folder.is_dir():
        pytest.fail(f"HAULWRIGHT_OUTSIDE_DATA names {folder}, which is not a folder")
    return folder
