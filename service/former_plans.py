"""The former plans that a request names, and the copies of them that its solve needs.

A copy says what people carry. It is put into the stored request when that is accepted, and goes
when the plan is final: what is deleted of the former plan then stays nowhere else.
"""

import json
from typing import Any

COPIED = (("near_plan", "trips"), ("start_plan", "plan"))
"""What of the options names a former plan, and the member that has the copy of it."""

_NAMES = tuple(name.encode() for name, _ in COPIED)


def without_copies(document: dict[str, Any]) -> dict[str, Any]:
    """A request without copies of the plans that it names; the same one where it has none.

    What a caller sent without the id of a plan is the caller's own, and stays.
    """
    options = document.get("options")
    if not isinstance(options, dict):
        return document
    left = {
        name: {key: value for key, value in former.items() if key != copy}
        for name, copy in COPIED
        if isinstance(former := options.get(name), dict)
        and former.get("plan_id") is not None
        and copy in former
    }
    return document | {"options": options | left} if left else document


def text_without_copies(text: bytes) -> bytes | None:
    """A stored request document without copies; None where it has none."""
    if not any(name in text for name in _NAMES):
        return None
    document = json.loads(text)
    left = without_copies(document)
    return None if left is document else json.dumps(left, ensure_ascii=False).encode()
