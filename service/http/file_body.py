"""Taking a file off the wire: its media type is settled first, then it goes to disk in pieces."""

import asyncio
import logging
import tempfile
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from pathlib import Path
from typing import IO, Any

from fastapi import Request

from service.errors import ServiceProblem
from service.http.request_body import body_too_large, require_declared_size

_AGAIN_SECONDS = "5"

logger = logging.getLogger(__name__)


@asynccontextmanager
async def received_file(
    request: Request, *, media_types: Sequence[str], limit_bytes: int, limit_seconds: float
) -> AsyncIterator[Path]:
    """The body as a temporary file, which is gone afterwards.

    Refuses another media type, and a body too large [byte] or too slow [s]. The problem
    storage_unavailable where the folder of temporary files takes no more.
    """
    _require_media_type(request, media_types)
    require_declared_size(request, limit_bytes=limit_bytes)
    with _temporary_file() as stream:
        size_bytes = 0
        try:
            async with asyncio.timeout(limit_seconds):
                async for part in request.stream():
                    size_bytes += len(part)
                    if size_bytes > limit_bytes:
                        raise body_too_large(limit_bytes=limit_bytes)
                    _write(stream, part)
        except TimeoutError:
            raise ServiceProblem("body_too_slow", headers={"Connection": "close"}) from None
        yield Path(stream.name)


def _temporary_file() -> IO[bytes]:
    """A file without a buffer, which would be written once more when the file is closed."""
    try:
        return tempfile.NamedTemporaryFile(prefix="haulwright-", suffix=".file", buffering=0)
    except OSError as error:
        raise _folder_takes_no_more(error) from None


def _write(stream: IO[bytes], part: bytes) -> None:
    """Write all of it; an almost full folder takes the beginning."""
    left = memoryview(part)
    try:
        while left:
            left = left[stream.write(left) :]
    except OSError as error:
        raise _folder_takes_no_more(error) from None


def _folder_takes_no_more(error: OSError) -> ServiceProblem:
    logger.error("no room for a file in the temporary folder: %s", error.strerror)
    return ServiceProblem(
        "storage_unavailable",
        "There is no room for the file. Send it again after the time in Retry-After.",
        headers={"Retry-After": _AGAIN_SECONDS, "Connection": "close"},
    )


def takes_file(media_types: Sequence[str], example: str) -> dict[str, Any]:
    """The documentation of a body that is a file."""
    content = {
        media_type: {
            "schema": {"type": "string", "description": "The file itself, as it is."},
            "examples": {"smallest": {"value": example}},
        }
        for media_type in media_types
    }
    return {"requestBody": {"required": True, "content": content}}


def _require_media_type(request: Request, media_types: Sequence[str]) -> None:
    given = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if given not in media_types:
        listed = " or ".join(media_types)
        raise ServiceProblem(
            "unsupported_media_type",
            f"Send the file itself with the header Content-Type: {listed}.",
            headers={"Accept": ", ".join(media_types)},
        )
    if request.headers.get("content-encoding", "identity").strip().lower() != "identity":
        raise ServiceProblem("unsupported_media_type", headers={"Accept-Encoding": "identity"})
