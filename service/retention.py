"""Says how long plans are kept, and erases those of a reference: `python -m service.retention -h`.

It works on the database of the settings, beside a service that runs.
"""

import argparse
import sys

from sqlalchemy import Engine

from service.audit import note_change, start_trail
from service.opening import open_or_end
from service.settings import SettingsError, read_settings
from service.storage.retention import RetentionStore
from service.storage.sqlite_log import end_log
from service.wiring import DEFAULT_TENANT

_MOST_DAYS = 36_500
_END_SECONDS = 10.0
_IF_NEW = "To keep plans of one who has nothing yet, add --new."
_STILL_READ = (
    "Something still reads the database as it was, so its log (-wal) holds what was removed. "
    "Run this again when it has ended, for example when a backup is finished."
)

_FOUND_NOTHING = 3
_NOTHING = (
    'Nothing of the tenant "{tenant}" has the reference "{reference}": no plan, no comparison, no '
    "entry of the library. If you erased it before, nothing of it is left. If not, check both "
    "names letter by letter; small and capital letters differ."
)


def main(arguments: list[str] | None = None) -> int:
    """Do one thing about what is kept.

    0 where it was done, 1 where the log still has what was removed, 3 where nothing is known of the
    tenant or of the reference.
    """
    given = _parser().parse_args(arguments)
    try:
        settings = read_settings()
    except SettingsError as error:
        sys.exit(str(error))
    start_trail(settings.log_format)
    database = open_or_end(settings)
    store = RetentionStore(database)
    if given.what in ("keep", "erase") and not given.new and not _is_known(store, given.tenant):
        return _FOUND_NOTHING
    if given.what == "keep":
        store.keep(tenant_id=given.tenant, days=given.days)
        kept = "for ever" if given.days is None else f"for {given.days} days"
        note_change(f"plans of tenant {given.tenant} are kept {kept}")
    elif given.what == "erase":
        return _erase(store, database, given.tenant, given.reference)
    elif given.what == "remove-old":
        removed = store.remove_old()
        note_change(f"removed because they were too old: plans {removed}")
        print(f"{removed} plans removed.")  # noqa: T201
        if not _end_log(database):
            return 1
    for tenant_id, days in store.kept().items():
        print(f"{tenant_id}: {days} days")  # noqa: T201
    return 0


def _erase(store: RetentionStore, database: Engine, tenant: str, reference: str) -> int:
    """Erase a reference; a status of its own where nothing has it, so that a misspelt one shows."""
    gone = store.erase(tenant_id=tenant, reference=reference)
    counted = (
        f"plans {gone.plans}, entries of the library {gone.entries}, comparisons {gone.comparisons}"
    )
    note_change(f"erased of one reference of tenant {tenant}: {counted}")
    print(f"Erased: {counted}.")  # noqa: T201
    is_clean = _end_log(database)
    if not gone.is_nothing:
        return 0 if is_clean else 1
    print(_NOTHING.format(tenant=tenant, reference=reference), file=sys.stderr)  # noqa: T201
    return _FOUND_NOTHING if is_clean else 1


def _is_known(store: RetentionStore, tenant_id: str) -> bool:
    """Whether the tenant has anything, or is the one of a service without keys; or say so."""
    known = store.tenants()
    if tenant_id in known or (tenant_id == DEFAULT_TENANT and not store.has_keys()):
        return True
    among = f"Known are {', '.join(known)}." if known else "No other one is known either."
    words = f"Nothing is known of a tenant {tenant_id}. {among} {_IF_NEW}"
    print(words, file=sys.stderr)  # noqa: T201
    return False


def _end_log(database: Engine) -> bool:
    """Leave nothing of what was removed in the log of a SQLite file either, or say so."""
    if end_log(database, seconds=_END_SECONDS):
        return True
    print(_STILL_READ, file=sys.stderr)  # noqa: T201
    return False


def _days(text: str) -> int | None:
    if text == "forever":
        return None
    words = f"write a whole number from 1 to {_MOST_DAYS}, or forever"
    try:
        days = int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(words) from None
    if not 1 <= days <= _MOST_DAYS:
        raise argparse.ArgumentTypeError(words)
    return days


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m service.retention", description=__doc__)
    what = parser.add_subparsers(dest="what", required=True)
    keep = what.add_parser("keep", help="keep a tenant's plans for some days after their end")
    keep.add_argument("tenant", help="whose plans; default where the service knows no keys")
    keep.add_argument("days", type=_days, help="a number of days, or forever")
    keep.add_argument("--new", action="store_true", help="for a tenant who has nothing yet")
    erase = what.add_parser("erase", help="erase all plans of one reference for good")
    erase.add_argument("tenant")
    erase.add_argument("reference")
    erase.set_defaults(new=False)
    what.add_parser("remove-old", help="remove what is too old now, not within the hour")
    what.add_parser("list", help="show who keeps plans for how long")
    return parser


if __name__ == "__main__":
    sys.exit(main())
