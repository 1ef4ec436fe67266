"""Taking a request's body off the wire: media type and size are settled before anything is read."""

import asyncio
import zlib

from fastapi import Request

from service.errors import ServiceProblem

SMALL_BODY_BYTES = 64 * 1024
"""Largest body of a request that says only a few things [byte]."""
_GZIP = 16 + zlib.MAX_WBITS
_GZIPS = frozenset({"gzip", "x-gzip"})
_MOST_MEMBERS = 32
"""Members of one body of gzip [1]; each costs time."""


async def read_json_body(request: Request, *, limit_bytes: int, limit_seconds: float) -> bytes:
    """The body of a JSON request; refuses another media type, and a body too large or too slow.

    Limits on the size [byte] and on the time that it takes to arrive [s]. Faults that are found in
    it are answered with pointers into it, so it stays with the request.
    """
    _require_json(request)
    require_declared_size(request, limit_bytes=limit_bytes)
    try:
        async with asyncio.timeout(limit_seconds):
            body = await _read(request, limit_bytes=limit_bytes)
    except TimeoutError:
        raise ServiceProblem("body_too_slow", headers={"Connection": "close"}) from None
    if _encoding(request) in _GZIPS:
        body = _unpacked(body, limit_bytes=limit_bytes)
    request.state.body = body
    return body


def _encoding(request: Request) -> str:
    return request.headers.get("content-encoding", "identity").strip().lower()


def _unpacked(body: bytes, *, limit_bytes: int) -> bytes:
    """The body without its gzip; no more than the limit is ever unpacked [byte]."""
    unpacked = b""
    for _ in range(_MOST_MEMBERS):
        reader = zlib.decompressobj(_GZIP)
        try:
            unpacked += reader.decompress(body, limit_bytes + 1 - len(unpacked))
        except zlib.error:
            raise ServiceProblem("malformed_request", "The body is not gzip.") from None
        if len(unpacked) > limit_bytes:
            raise body_too_large(limit_bytes=limit_bytes)
        if not reader.eof:
            raise ServiceProblem("malformed_request", "The body is only a part of gzip.")
        body = reader.unused_data
        if not body:
            return unpacked
    detail = f"The body has more than {_MOST_MEMBERS} members of gzip."
    raise ServiceProblem("malformed_request", detail)


async def _read(request: Request, *, limit_bytes: int) -> bytes:
    parts: list[bytes] = []
    size_bytes = 0
    async for part in request.stream():
        size_bytes += len(part)
        if size_bytes > limit_bytes:
            raise body_too_large(limit_bytes=limit_bytes)
        parts.append(part)
    return b"".join(parts)


def _require_json(request: Request) -> None:
    media_type, _, parameters = request.headers.get("content-type", "").partition(";")
    charset = parameters.strip().lower().replace('"', "")
    if media_type.strip().lower() != "application/json" or charset not in ("", "charset=utf-8"):
        raise ServiceProblem("unsupported_media_type", headers={"Accept": "application/json"})
    if _encoding(request) not in {"identity", *_GZIPS}:
        raise ServiceProblem("unsupported_media_type", headers={"Accept-Encoding": "gzip"})


def require_declared_size(request: Request, *, limit_bytes: int) -> None:
    """Refuse a body that says itself that it is too large."""
    declared = request.headers.get("content-length")
    if declared is None:
        return
    # The server has already refused a length that is no number; a longer one than this is a flood.
    if not (declared.isascii() and declared.isdigit()) or len(declared) > 18:
        raise ServiceProblem("malformed_request", "Content-Length is not a number of bytes.")
    if int(declared) > limit_bytes:
        raise body_too_large(limit_bytes=limit_bytes)


def body_too_large(*, limit_bytes: int) -> ServiceProblem:
    """The problem of a body with more bytes than are taken."""
    # The unread rest of the body would be taken for the next request on this connection.
    return ServiceProblem(
        "body_too_large",
        f"The body is larger than {limit_bytes} bytes, the most that is taken.",
        headers={"Connection": "close"},
    )
