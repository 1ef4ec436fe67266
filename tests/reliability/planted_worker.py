"""Runs a worker with the fault that PLANTED_FAULT names, to see that the proofs catch it."""

import os

from service.worker import main
from tests.reliability.planted import PLANTED
from tests.service.fake_translation import TRANSLATION

if __name__ == "__main__":
    PLANTED[os.environ.pop("PLANTED_FAULT")]()
    main(TRANSLATION)
