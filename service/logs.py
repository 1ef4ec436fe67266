"""Logs with the request and the plan that each line is about, as text or as JSON.

A line never has a body, a query or a header, so that no secret and nothing of anybody gets there.
"""

import json
import logging
from collections.abc import Iterable
from contextvars import ContextVar
from datetime import UTC, datetime

REQUEST_ID: ContextVar[str | None] = ContextVar("request_id", default=None)
"""The id of the request that is answered, as it stands in X-Request-Id."""
PLAN_ID: ContextVar[str | None] = ContextVar("plan_id", default=None)
"""The plan that is solved or asked about."""

_BLANK = "***"

FORMATS = ("text", "json")


class TextLines(logging.Formatter):
    """Lines for people."""

    def format(self, record: logging.LogRecord) -> str:
        """Time, level, logger and message, then the ids that are known."""
        ids = "".join(f" {name}={value}" for name, value in _ids().items())
        return super().format(record) + ids


class JsonLines(logging.Formatter):
    """One JSON object a line, for programs."""

    def format(self, record: logging.LogRecord) -> str:
        """The same as an object; an exception is one of its members."""
        told = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
            **_ids(),
        }
        if record.exc_info:
            told["exception"] = self.formatException(record.exc_info)
        return json.dumps(told, ensure_ascii=False)


class _WithoutSecrets(logging.Formatter):
    """The lines of another formatter, with three asterisks for every secret.

    Libraries write into the log what they were given, an address with its password too.
    """

    def __init__(self, lines: logging.Formatter, secrets: Iterable[str]) -> None:
        super().__init__()
        self._lines = lines
        forms = {form for secret in secrets for form in (secret, json.dumps(secret)[1:-1])}
        # The longest first: one may be a part of another.
        self._secrets = sorted(forms, key=len, reverse=True)

    def format(self, record: logging.LogRecord) -> str:
        """The line without any secret."""
        line = self._lines.format(record)
        for secret in self._secrets:
            line = line.replace(secret, _BLANK)
        return line


def start_logging(form: str, *secrets: str) -> None:
    """Write all lines to standard error in one of FORMATS, none with one of the secrets."""
    logging.basicConfig(level=logging.INFO, handlers=[handler_for(form, *secrets)], force=True)


def handler_for(form: str, *secrets: str) -> logging.Handler:
    """What writes lines to standard error in one of FORMATS, none with one of the secrets."""
    handler = logging.StreamHandler()
    text = TextLines("%(asctime)s %(levelname)s %(name)s %(message)s")
    lines = JsonLines() if form == "json" else text
    handler.setFormatter(_WithoutSecrets(lines, secrets) if secrets else lines)
    return handler


def _ids() -> dict[str, str]:
    known = {"request_id": REQUEST_ID.get(), "plan_id": PLAN_ID.get()}
    return {name: value for name, value in known.items() if value is not None}
