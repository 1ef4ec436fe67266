"""Obedient jobs whose module takes a second to load, as the solver does on a cold machine."""

import time

from tests.service.fake_jobs import obey

__all__ = ["obey"]

time.sleep(1)
