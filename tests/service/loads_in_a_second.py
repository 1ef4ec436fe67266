"""Obedient jobs whose module takes a second to load, as the solver does on a cold machine."""

import time

from tests.service.fake_jobs import obey
from tests.service.fake_translation import work_at_desk

__all__ = ["obey", "work_at_desk"]

time.sleep(1)
