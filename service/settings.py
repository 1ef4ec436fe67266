"""The settings of the service, read once from environment variables named HAULWRIGHT_*."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from pathlib import Path

PREFIX = "HAULWRIGHT_"


class SettingsError(ValueError):
    """A setting that cannot be used; the message names it and says what it may be."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Every setting with its default; the variable is the field's name in capitals, prefixed."""

    host: str = "127.0.0.1"
    port: int = 8000
    database: Path = Path("data/haulwright.sqlite3")
    solve_workers: int = 2
    """Plans solved at the same time, each in its own process."""
    solve_seconds: float = 30.0
    """Time one solve may take when the request does not say [s]."""
    solve_limit_seconds: float = 300.0
    """Longest time that a request may ask for [s]; more is cut to this."""
    solve_grace_seconds: float = 2.0
    """Time beyond its limit after which a solve is killed [s]."""
    solve_memory_mb: int = 2048
    """Private memory of one solve [MiB]."""
    lease_seconds: float = 10.0
    """Time after which a plan whose worker fell silent is solved anew [s]."""
    queue_limit: int = 500
    """Plans that may wait; more are refused with 503."""
    body_limit_bytes: int = 2 * 1024 * 1024
    """Largest request body [byte]."""
    body_seconds: float = 30.0
    """Time a request body may take to arrive [s]."""
    wait_limit_seconds: int = 60
    """Longest wait that a caller's Prefer: wait is granted [s]."""


def read_settings(environment: Mapping[str, str]) -> Settings:
    """The settings that the environment names, the rest at their defaults."""
    known = {PREFIX + field.name.upper(): field for field in fields(Settings)}
    # Other programs of the project have variables of their own; those are not settings.
    values: dict[str, object] = {}
    for variable, field in known.items():
        if variable not in environment:
            continue
        text = environment[variable]
        try:
            values[field.name] = _READERS[str(field.type)](text)
        except ValueError as error:
            raise SettingsError(f'{variable}: "{text}" {error}') from None
    return Settings(**values)  # type: ignore[arg-type]


def _text(text: str) -> str:
    if not text:
        raise ValueError("is empty. Write a value, or leave the variable out.")
    return text


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 12 or int(text) == 0:
        raise ValueError("is not a positive whole number, for example 2.")
    return int(text)


def _positive(text: str) -> float:
    number = float(text) if text.isascii() and text.replace(".", "", 1).isdigit() else 0.0
    if not 0 < number < 1e9:
        raise ValueError("is not a positive number, for example 30 or 2.5.")
    return number


_READERS = {
    "<class 'str'>": _text,
    "<class 'pathlib.Path'>": lambda text: Path(_text(text)),
    "<class 'int'>": _whole,
    "<class 'float'>": _positive,
}
