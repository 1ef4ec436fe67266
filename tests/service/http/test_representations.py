"""Where answers get their tags and their encoding: large ones not in the thread of the others."""

import asyncio
import gzip
import hashlib
import threading

import pytest
from starlette.types import Message, Receive, Scope, Send

from service.http import representations
from service.http.representations import LARGE_BYTES, Representations


def answered(body: bytes, *headers: tuple[bytes, bytes], status: int = 200) -> list[Message]:
    """What goes out of an answer with this body."""
    sent: list[Message] = []

    async def app(_scope: Scope, _receive: Receive, send: Send) -> None:
        length = (b"content-length", str(len(body)).encode())
        await send({"type": "http.response.start", "status": status, "headers": [length]})
        await send({"type": "http.response.body", "body": body[:10], "more_body": True})
        await send({"type": "http.response.body", "body": body[10:]})

    async def keep(message: Message) -> None:
        assert threading.current_thread() is threading.main_thread()
        sent.append(message)

    scope = {"type": "http", "method": "GET", "path": "/", "headers": list(headers)}
    asyncio.run(Representations(app)(scope, None, keep))
    return sent


@pytest.fixture
def threads(monkeypatch) -> dict[str, set[threading.Thread]]:
    """Which threads hashed and packed."""
    seen: dict[str, set[threading.Thread]] = {"hash": set(), "pack": set()}

    class Hashes:
        """The module of hashes, watched."""

        @staticmethod
        def sha256(body):
            """Hash, and note who did."""
            seen["hash"].add(threading.current_thread())
            return hashlib.sha256(body)

    class Packs:
        """The module that packs, watched."""

        @staticmethod
        def compress(body, **options):
            """Pack, and note who did."""
            seen["pack"].add(threading.current_thread())
            return gzip.compress(body, **options)

    monkeypatch.setattr(representations, "hashlib", Hashes)
    monkeypatch.setattr(representations, "gzip", Packs)
    return seen


@pytest.mark.parametrize("status", [200, 404])
def test_a_large_answer_is_hashed_and_packed_in_another_thread(threads, status):
    """It goes out whole, with its tag, its encoding and its new length."""
    body = b"0123456789" * (LARGE_BYTES // 10 + 1)
    start, sent = answered(body, (b"accept-encoding", b"gzip"), status=status)
    headers = dict(start["headers"])
    assert gzip.decompress(sent["body"]) == body
    assert headers[b"content-length"] == str(len(sent["body"])).encode()
    assert (b"etag" in headers) is (status == 200)
    assert threads["pack"]
    assert threading.main_thread() not in threads["pack"] | threads["hash"]
    tag = headers.get(b"etag", b"none")
    again, nothing = answered(
        body, (b"accept-encoding", b"gzip"), (b"if-none-match", tag), status=status
    )
    assert (again["status"], nothing["body"] == b"") == (
        (304, True) if status == 200 else (404, False)
    )


def test_a_small_answer_is_not_handed_to_another_thread(threads):
    """That would take longer than the work itself."""
    _, sent = answered(b"0" * (LARGE_BYTES - 1), (b"accept-encoding", b"gzip"))
    assert len(sent["body"]) < 1_000
    assert threads == {"hash": {threading.main_thread()}, "pack": {threading.main_thread()}}
