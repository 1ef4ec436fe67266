"""One frame for all screens: a style, at most one script, and a policy that lets only them run."""

from __future__ import annotations

import base64
import hashlib
from dataclasses import dataclass
from importlib.resources import files

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

_TEMPLATES = files("service.screens") / "templates"
_STYLE = (_TEMPLATES / "screen.css").read_text(encoding="utf-8")
_SCRIPT = (_TEMPLATES / "live.js").read_text(encoding="utf-8")
_ENVIRONMENT = Environment(
    loader=PackageLoader("service.screens"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


@dataclass(frozen=True, slots=True)
class Screen:
    """A whole HTML file, and the policy under which a browser may show it."""

    html: bytes
    policy: str


def screen(template: str, *, live: bool = False, **context: object) -> Screen:
    """A screen from its template; a live one has the script that follows a solve."""
    html = _ENVIRONMENT.get_template(template).render(
        # Style and script are ours, and their quotes must not become entities.
        css=Markup(_STYLE),  # noqa: S704
        script=Markup(_SCRIPT) if live else "",  # noqa: S704
        **context,
    )
    script = f"script-src '{_digest(_SCRIPT)}'; connect-src 'self'; " if live else ""
    policy = (
        f"default-src 'none'; style-src '{_digest(_STYLE)}'; {script}img-src 'self' data:; "
        "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    )
    return Screen(html.encode(), policy)


def _digest(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
