"""Runs the service in a process of its own with the obedient solver, for tests that kill it."""

import gc

# As `service.__main__` does.
gc.disable()

from service.app import create_app
from service.logs import start_logging
from service.server import HandingBackServer
from service.settings import read_settings
from tests.service.fake_translation import TRANSLATION

gc.freeze()
gc.enable()

if __name__ == "__main__":
    settings = read_settings()
    start_logging(settings.log_format)
    HandingBackServer(create_app(settings, TRANSLATION), settings).run()
