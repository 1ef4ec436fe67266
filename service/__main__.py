"""Runs the service: `python -m service`, with settings from variables named HAULWRIGHT_*."""

import gc
import sys

# What is imported stays. A collector that looks at it costs a fifth of the start.
gc.disable()

from service.app import create_app
from service.logs import start_logging
from service.opening import open_or_end
from service.server import HandingBackServer
from service.settings import Settings, SettingsError, read_settings
from service.storage.keys import KeyStore
from service.storage.postgresql import secrets_of
from service.translation import TRANSLATION

gc.freeze()
gc.enable()

_NO_KEY = (
    "Others can reach this address, and there is no key yet. Make one with `python -m service.keys "
    "make TENANT`, or set HAULWRIGHT_KEYS=none to let everybody in."
)

_SWITCH_SECONDS = 0.001
"""How long the thread of the loop waits for another one to give way [s]; Python's own is 0.005.

Measured on a busy machine at 40 requests a second: a median of 27 to 34 ms instead of 34 to 219.
"""


def _has_keys(settings: Settings) -> bool:
    database = open_or_end(settings)
    try:
        return KeyStore(database).count() > 0
    finally:
        database.dispose()


def main() -> None:
    """Start the server and serve until a signal."""
    try:
        settings = read_settings()
    except SettingsError as error:
        sys.exit(str(error))
    start_logging(settings.log_format, *secrets_of(settings.database_url))
    # The database is looked at in any case, so that one that cannot be opened is told in a line.
    has_keys = _has_keys(settings)
    if settings.needs_keys() and not has_keys:
        sys.exit(_NO_KEY)
    sys.setswitchinterval(_SWITCH_SECONDS)
    app = create_app(settings, TRANSLATION)
    # What is loaded by now stays; the collector need not look at it during requests.
    gc.collect()
    gc.freeze()
    HandingBackServer(app, settings).run()


if __name__ == "__main__":
    main()
