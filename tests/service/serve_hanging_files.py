"""Runs the service with readers of files that never come to an end, for tests that stop it."""

from service.app import create_app
from service.files import reader
from service.logs import start_logging
from service.server import HandingBackServer
from service.settings import read_settings
from tests.service.fake_translation import TRANSLATION

if __name__ == "__main__":
    settings = read_settings()
    start_logging(settings.log_format)
    reader.JOB = "tests.service.fake_jobs:hang_always"
    HandingBackServer(create_app(settings, TRANSLATION), settings).run()
