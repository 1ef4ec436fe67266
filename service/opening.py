"""The database that the settings name, opened by a program, or one line that says why it is not."""

import sys

from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError

from service.settings import Settings
from service.storage.database import open_database


def open_or_end(settings: Settings) -> Engine:
    """The database, with the newest tables; ends the program where it cannot be opened.

    What is said names the file, or the setting, and never the address, which has a password in it.
    """
    try:
        return open_database(settings.database_address())
    except (SQLAlchemyError, OSError) as error:
        named = "named by HAULWRIGHT_DATABASE_URL" if settings.database_url else settings.database
        why = str(getattr(error, "orig", None) or error).strip().partition("\n")[0]
        sys.exit(f"The database {named} cannot be opened: {why}")
