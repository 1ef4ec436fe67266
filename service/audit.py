"""Lines of the audit trail for what is done at the command line, beside those of the access."""

import getpass
import logging

from service.logs import handler_for

logger = logging.getLogger(__name__)


def start_trail(form: str) -> None:
    """Write the lines of a program to standard error, in the form that the settings name."""
    logger.setLevel(logging.INFO)
    logger.handlers = [handler_for(form)]


def note_change(what: str) -> None:
    """Say what was changed and which user of this machine did it.

    What is said names tenants and keys, never a secret, a reference or anything of anybody.
    """
    logger.info("audit: %s, at the command line by %s", what, _user())


def _user() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "a user without a name"
