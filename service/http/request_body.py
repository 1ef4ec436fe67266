"""Taking a request's body off the wire: media type and size are settled before anything is read."""

import asyncio
import zlib

from fastapi import Request

from service.errors import ServiceProblem
from service.http.body_room import take_room

SMALL_BODY_BYTES = 64 * 1024
"""Largest body of a request that says only a few things [byte]."""
_GZIP = 16 + zlib.MAX_WBITS
_GZIPS = frozenset({"gzip", "x-gzip"})
_PART_BYTES = 256 * 1024
"""What is unpacked at once, in less than a millisecond or two [byte]."""
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
        body = await _unpacked(request, body, limit_bytes=limit_bytes)
    request.state.body = body
    return body


def _encoding(request: Request) -> str:
    return request.headers.get("content-encoding", "identity").strip().lower()


async def _unpacked(request: Request, body: bytes, *, limit_bytes: int) -> bytes:
    """The body without its gzip; no more than the limit is ever unpacked [byte].

    Others have their turn after each part. The room for bodies counts what it holds, packed or not.
    """
    unpacked = bytearray()
    counted_bytes = len(body)
    for _ in range(_MOST_MEMBERS):
        reader = zlib.decompressobj(_GZIP)
        while not reader.eof:
            part, body = _next_part(reader, body, limit_bytes + 1 - len(unpacked))
            unpacked += part
            if len(unpacked) > limit_bytes:
                raise body_too_large(limit_bytes=limit_bytes)
            if len(unpacked) > counted_bytes:
                take_room(request.scope, len(unpacked) - counted_bytes)
                counted_bytes = len(unpacked)
            await asyncio.sleep(0)
        if not body:
            return bytes(unpacked)
    detail = f"The body has more than {_MOST_MEMBERS} members of gzip."
    raise ServiceProblem("malformed_request", detail)


def _next_part(reader: "zlib._Decompress", body: bytes, most_bytes: int) -> tuple[bytes, bytes]:
    """Some more of what a body holds, and what is left of the body."""
    try:
        part = reader.decompress(body, min(most_bytes, _PART_BYTES))
    except zlib.error:
        raise ServiceProblem("malformed_request", "The body is not gzip.") from None
    if not part and not reader.eof:
        raise ServiceProblem("malformed_request", "The body is only a part of gzip.")
    return part, reader.unused_data if reader.eof else reader.unconsumed_tail


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
