"""What every test may ask for: the folder of outside data, and the same random cases each time."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

# The same cases on every run: a red run can be repeated, and a slow machine is not a failure.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")


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
