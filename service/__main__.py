"""Runs the service: `python -m service`, with settings from variables named HAULWRIGHT_*."""

import gc
import logging
import sys

from service.app import create_app
from service.server import HandingBackServer
from service.settings import SettingsError, read_settings
from service.translation import TRANSLATION


def main() -> None:
    """Start the server and serve until a signal."""
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    try:
        settings = read_settings()
    except SettingsError as error:
        sys.exit(str(error))
    app = create_app(settings, TRANSLATION)
    # What is loaded by now stays; the collector need not look at it during requests.
    gc.collect()
    gc.freeze()
    HandingBackServer(app, settings).run()


if __name__ == "__main__":
    main()
