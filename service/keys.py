"""Makes, lists and revokes keys: `python -m service.keys --help`.

It works on the database of the settings, beside a service that runs; a change holds at once.
"""

import argparse
import sys
from datetime import UTC, datetime

from service.audit import note_change, start_trail
from service.opening import open_or_end
from service.settings import SettingsError, read_settings
from service.storage.keys import SCOPES, KeyStore
from service.webhooks.signing import tenant_secret

_NO_KEY = "No key of this id is in use. `python -m service.keys list` shows the ids."


def main(arguments: list[str] | None = None) -> int:
    """Do one thing with keys; 0 where it was done."""
    given = _parser().parse_args(arguments)
    try:
        settings = read_settings()
    except SettingsError as error:
        sys.exit(str(error))
    if given.what == "webhook-secret":
        return _show_webhook_secrets(settings.webhook_secrets(), given.tenant)
    start_trail(settings.log_format)
    keys = KeyStore(open_or_end(settings))
    if given.what == "make":
        return _make(keys, given.tenant, given.scopes)
    if given.what == "revoke":
        found = keys.revoke(given.key_id)
        if found:
            note_change(f"key {given.key_id} revoked")
        print("Revoked." if found else _NO_KEY)  # noqa: T201
        return 0 if found else 1
    for key in keys.list():
        made = datetime.fromtimestamp(key.created_at_ms / 1000, UTC).date()
        use = "in use" if key.revoked_at_ms is None else "revoked"
        print(key.key_id, key.tenant_id, key.scopes, made, use)  # noqa: T201
    return 0


def _make(keys: KeyStore, tenant_id: str, scopes: list[str]) -> int:
    wanted = tuple(scope for scope in SCOPES if scope in scopes)
    try:
        key = keys.make(tenant_id=tenant_id, scopes=wanted)
    except ValueError as error:
        print(f"No key was made: {error}.", file=sys.stderr)  # noqa: T201
        return 1
    note_change(f"key {key.split('_')[1]} of tenant {tenant_id} made for {' and '.join(wanted)}")
    print(key)  # noqa: T201
    print("Keep it: it is shown this once.", file=sys.stderr)  # noqa: T201
    return 0


def _show_webhook_secrets(secrets: tuple[str, ...], tenant_id: str) -> int:
    for secret in secrets:
        print(tenant_secret(secret, tenant_id))  # noqa: T201
    if not secrets:
        print("HAULWRIGHT_WEBHOOK_SECRET is not set.", file=sys.stderr)  # noqa: T201
    return 0 if secrets else 1


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m service.keys", description=__doc__)
    what = parser.add_subparsers(dest="what", required=True)
    make = what.add_parser("make", help="make a key and show it once")
    make.add_argument("tenant", help="whose plans the key is for, such as agency-1")
    make.add_argument("--scopes", nargs="+", choices=SCOPES, default=["read", "plan"])
    revoke = what.add_parser("revoke", help="take a key out of use")
    revoke.add_argument("key_id", help="the part behind hw_, as the list shows it")
    hooks = what.add_parser("webhook-secret", help="show the secret that signs a tenant's webhooks")
    hooks.add_argument("tenant", help="whose webhooks; default on a service without keys")
    what.add_parser("list", help="show all keys without their secrets")
    return parser


if __name__ == "__main__":
    sys.exit(main())
