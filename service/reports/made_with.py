"""The versions of the wire and of the rules that this process works with, as digests.

A version changes exactly when what it stands for does: the published description, or the rules
with their kinds, sentences and numbers.
"""

import hashlib
import json
from functools import cache
from pathlib import Path

from service.reports.rules import rule_entries
from service.storage.leases import MadeWith

_PUBLISHED = Path(__file__).parents[2] / "api_schema" / "openapi.v1.json"
_DIGITS = 12


@cache
def versions_of_today() -> MadeWith:
    """What a plan that is solved now is made with."""
    return MadeWith(
        wire_version="v1-" + _digest(_PUBLISHED.read_bytes()),
        rules_version=_digest(_rules_text()),
    )


def _rules_text() -> bytes:
    rules = [rule.model_dump(mode="json") for rule in rule_entries()]
    return json.dumps(rules, sort_keys=True).encode()


def _digest(text: bytes) -> str:
    return hashlib.sha256(text).hexdigest()[:_DIGITS]
