"""What a caller asks for in the headers Accept and Prefer."""

import re
from collections.abc import Iterable, Sequence

from service.errors import ServiceProblem

JSON = "application/json"
CSV = "text/csv"
HTML = "text/html"

_WAIT = re.compile(r'wait\s*=\s*"?([0-9]{1,9})"?', re.IGNORECASE | re.ASCII)


def chosen_media_type(accept: str | None, offers: Sequence[str]) -> str:
    """The offer that the Accept header likes best, the first one among equals."""
    if accept is None or not accept.strip():
        return offers[0]
    ranges = [_media_range(part) for part in accept.split(",")]
    weights = [_weight(offer, ranges) for offer in offers]
    if max(weights) <= 0:
        listed = " or ".join(offers)
        raise ServiceProblem("not_acceptable", f"This address answers with {listed}.")
    return offers[weights.index(max(weights))]


def prefers_page(accept: Iterable[str]) -> bool:
    """Whether Accept headers take JSON but like a page better, as those of browsers do."""
    ranges = [_media_range(part) for header in accept for part in header.split(",")]
    return _weight(HTML, ranges) > _weight(JSON, ranges) > 0


def preferred_wait_seconds(prefer: Iterable[str], *, limit_seconds: int) -> int | None:
    """Whole seconds that a caller is ready to wait (RFC 7240, wait), up to the limit [s].

    None where no header asks for it. A preference that cannot be read is no error but ignored.
    """
    for header in prefer:
        for preference in header.split(","):
            match = _WAIT.fullmatch(preference.partition(";")[0].strip())
            if match:
                return min(int(match[1]), limit_seconds)
    return None


def _media_range(part: str) -> tuple[str, float]:
    media_type, *parameters = (piece.strip().lower() for piece in part.split(";"))
    weight = 1.0
    for parameter in parameters:
        name, _, value = parameter.partition("=")
        if name.strip() == "q":
            weight = _quality(value.strip())
    return media_type, weight


def _quality(text: str) -> float:
    return float(text) if re.fullmatch(r"[01](\.[0-9]{0,3})?", text, re.ASCII) else 0.0


def _weight(offer: str, ranges: list[tuple[str, float]]) -> float:
    """The weight of the most specific range that covers the offer; zero where none does."""
    for pattern in (offer, offer.partition("/")[0] + "/*", "*/*"):
        matching = [weight for media_range, weight in ranges if media_range == pattern]
        if matching:
            return max(matching)
    return 0.0
