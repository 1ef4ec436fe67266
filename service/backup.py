"""Copies the database of a service that runs: `python -m service.backup FILE`.

This is for the SQLite file. The copy is whole, whatever is written meanwhile. To restore it, stop
the service, remove the file of the database with its -wal and -shm, and put the copy in its place.
PostgreSQL has pg_dump and pg_restore.
"""

import argparse
import os
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

from service.settings import SettingsError, read_settings


def back_up(database: Path, copy: Path) -> None:
    """Copy a database to a new file that its owner alone may read, and prove that it is sound.

    Raises FileExistsError where the copy is there already, and sqlite3.Error where the database is
    none or is broken; nothing is left of the copy then.
    """
    os.close(os.open(copy, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    try:
        address = f"{database.absolute().as_uri()}?mode=ro"
        with (
            closing(sqlite3.connect(address, uri=True)) as source,
            closing(sqlite3.connect(copy)) as target,
        ):
            source.backup(target)
            (said,) = target.execute("PRAGMA integrity_check").fetchone()
            target.execute("SELECT count(*) FROM plans").fetchone()
        if said != "ok":
            raise sqlite3.DatabaseError(said)
    except BaseException:
        copy.unlink()
        raise


def main(arguments: list[str] | None = None) -> int:
    """Make one copy; 0 where it is whole."""
    parser = argparse.ArgumentParser(prog="python -m service.backup", description=__doc__)
    parser.add_argument("file", type=Path, help="where the copy goes; it must not be there yet")
    copy = parser.parse_args(arguments).file
    try:
        settings = read_settings()
        if settings.database_url:
            sys.exit("The plans are on PostgreSQL. Use pg_dump.")
        back_up(settings.database, copy)
    except (SettingsError, OSError, sqlite3.Error) as error:
        sys.exit(f"No backup was made: {error}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
