"""Copies of former plans in stored requests, which go when the plan is final."""

from typing import Any

from sqlalchemy import Connection

from service.former_plans import text_without_copies
from service.storage.sqlite_log import note_deletion


def final_request(connection: Connection, text: bytes) -> dict[str, Any]:
    """The values of a row that becomes final: its request document, where that had copies.

    The former plan may be deleted by then, so that its copies must not stay in the log either.
    """
    left = text_without_copies(text)
    if left is None:
        return {}
    note_deletion(connection)
    return {"request_document": left}
