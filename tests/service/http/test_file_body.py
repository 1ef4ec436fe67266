"""Files on their way to disk: what happens where the disk takes no more."""

import asyncio
import resource
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import Request

from service.errors import ServiceProblem
from service.http.file_body import received_file

ALLOWED_BYTES = 4096


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """The folder of temporary files, of this test alone."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


@pytest.fixture
def small_files() -> Iterator[None]:
    """The system takes so many bytes of a file and no more, as where a disk is full."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (ALLOWED_BYTES, before[1]))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, before)


def received(size_bytes: int) -> int:
    """A file of that size comes in parts: how much of it is on disk."""
    parts = [b"x" * 1000] * (size_bytes // 1000) + [b"x" * (size_bytes % 1000)]
    left = [{"type": "http.request", "body": part, "more_body": True} for part in parts]
    left.append({"type": "http.request", "body": b"", "more_body": False})

    async def receive() -> dict:
        return left.pop(0)

    headers = [(b"content-type", b"text/csv")]
    asked = Request({"type": "http", "method": "POST", "headers": headers}, receive)

    async def receive_it() -> int:
        async with received_file(
            asked, media_types=("text/csv",), limit_bytes=10**6, limit_seconds=5
        ) as path:
            return path.stat().st_size

    return asyncio.run(receive_it())


@pytest.mark.usefixtures("small_files")
def test_a_full_disk_is_a_problem_with_a_time_to_come_again(folder):
    """What fits is taken whole; one byte more is 503 with Retry-After, and nothing is left."""
    assert received(ALLOWED_BYTES) == ALLOWED_BYTES
    with pytest.raises(ServiceProblem) as refused:
        received(ALLOWED_BYTES + 1)
    assert (refused.value.code, refused.value.kind.status) == ("storage_unavailable", 503)
    assert refused.value.headers == {"Retry-After": "5", "Connection": "close"}
    assert [*folder.iterdir()] == []


def test_a_folder_that_is_gone_is_the_same_problem(folder):
    """Where no temporary file can be made, 503 with Retry-After."""
    folder.rmdir()
    with pytest.raises(ServiceProblem) as refused:
        received(1)
    assert refused.value.code == "storage_unavailable"
    assert refused.value.headers["Retry-After"] == "5"
