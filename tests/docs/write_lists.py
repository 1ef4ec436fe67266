"""Writes the guides that are lists: every problem, every fault and every setting with its heading.

python -m tests.docs.write_lists
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from http import HTTPStatus
from pathlib import Path
from types import MappingProxyType

from service.errors import PROBLEMS
from service.settings import PREFIX, Settings
from tests.docs.fault_texts import FAULTS

GUIDES = Path(__file__).parents[2] / "service" / "guides"


def problems_list() -> str:
    """Every problem: its code as the heading, its status, its title and what to do."""
    head = (
        "# Problems\n\n"
        "Every refusal and failure is a problem (RFC 9457) with one of these codes. A code never\n"
        "changes its meaning, and it alone decides the status. `errors` lists every fault of a\n"
        "request with its place. `GET /v1/problems/{problem_code}` gives the same as JSON.\n"
        "`python -m tests.docs.write_lists` writes this list.\n"
    )
    return head + "".join(
        f"\n## `{code}`\n\n{kind.status} {HTTPStatus(kind.status).phrase}. **{kind.title}** "
        f"{kind.advice}\n"
        for code, kind in sorted(PROBLEMS.items(), key=lambda item: (item[1].status, item[0]))
    )


def faults_list() -> str:
    """Every fault of a request: its code as the heading, the cause, and what to do."""
    head = (
        "# Faults\n\n"
        "A refused request lists its faults under `errors`. Each has one of these codes, its\n"
        "place, and a `detail` with the names and numbers of the case. A code never changes its\n"
        "meaning. Codes of whole refusals are under [problems](problems.md).\n"
        "`python -m tests.docs.write_lists` writes this list.\n"
    )
    return head + "".join(
        f"\n## `{code}`\n\n**{cause}** {remedy}\n"
        for code, (cause, remedy) in sorted(FAULTS.items())
    )


def settings_list() -> str:
    """Every setting: its variable as the heading, its default, and what it is."""
    head = (
        "# Settings\n\n"
        "Each setting is an environment variable. A wrong value or a misspelt variable stops the\n"
        "start with a message. `python -m tests.docs.write_lists` writes this list from\n"
        "`service/settings.py`.\n"
    )
    return head + "".join(
        f"\n## `{PREFIX}{name.upper()}`\n\nDefault: {_default(field.default)}.\n"
        + (f"{' '.join(field.description.split())}\n" if field.description else "")
        for name, field in Settings.model_fields.items()
    )


def _default(value: object) -> str:
    return "none" if value in ("", None) else f"`{value}`"


LISTS: Mapping[str, Callable[[], str]] = MappingProxyType(
    {"problems.md": problems_list, "faults.md": faults_list, "settings.md": settings_list}
)

if __name__ == "__main__":
    for name, write in LISTS.items():
        (GUIDES / name).write_text(write(), encoding="utf-8")
