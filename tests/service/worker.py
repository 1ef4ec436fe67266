"""Runs a worker in a process of its own with the obedient solver, for tests that kill it."""

from service.worker import main
from tests.service.fake_translation import TRANSLATION

if __name__ == "__main__":
    main(TRANSLATION)
