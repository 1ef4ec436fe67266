"""Files of every bad kind at the service's own door: answered by name, and the service goes on."""

import random
import string

import pytest

from service.routes.files import WORKBOOK
from tests.service.files.books import book, with_part

MB = 1_000_000
CSV, GPX = "text/csv; charset=utf-8", "application/gpx+xml"
HEADER = ["Item", "Mass", "Note"]
CHANCE = random.Random(16)


def noise(characters: int) -> str:
    """Text that does not pack well."""
    return "".join(CHANCE.choices(string.ascii_letters + string.digits, k=characters))


def ten_megabyte_csv(rows: int) -> bytes:
    """A gear list of 10 MB with so many rows, whose notes fill it."""
    filling = noise(1990)
    lines = [f"item {n},{100 + n % 900} g,{filling[: 10 * MB // rows - 30]}" for n in range(rows)]
    return "\n".join([",".join(HEADER), *lines]).encode()


def ten_megabyte_workbook() -> bytes:
    """A workbook of about 10 MB within the limits of rows and cells."""
    notes = [noise(1900) for _ in range(4900)]
    return book(("Gear", [HEADER, *([f"item {n}", "1 kg", note] for n, note in enumerate(notes))]))


def bomb() -> bytes:
    """A small workbook that unpacks to 100 MB."""
    plain = book(("Gear", [HEADER, ["Tent", "3 kg", ""]]))
    return with_part(plain, "xl/sharedStrings.xml", b"<a>" + b" " * (100 * MB) + b"</a>")


def track(points: int, before: str = "") -> bytes:
    """A GPX track of so many points."""
    point = b'<trkpt lat="61.1" lon="-140.1"><ele>2000</ele></trkpt>'
    head = f'{before}<gpx version="1.1" creator="a"><trk><trkseg>'.encode()
    return head + point * points + b"</trkseg></trk></gpx>"


DOCTYPE = '<!DOCTYPE gpx [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'
CASES = {
    "10 MB of rows": (
        "gear-list", CSV, lambda: ten_megabyte_csv(100_000), 422, "too_large"),
    "10 MB within the rows": (
        "gear-list", WORKBOOK, ten_megabyte_workbook, 200, "item 4899"),
    "bomb": ("gear-list", WORKBOOK, bomb, 422, "too_large"),
    "commands": (
        "gear-list", CSV, lambda: b"Item,Mass\n=cmd|' /C calc'!A0,1 kg\n", 200, "=cmd"),
    "mixed units": (
        "gear-list", CSV, lambda: b"Item,Mass\nTent,3 kg\nPot,10 oz\nRope,7 lb\n", 200, "10 oz"),
    "no units": ("gear-list", CSV, lambda: b"Item,Mass\nTent,3\n", 422, "no_unit"),
    "missing column": (
        "gear-list", CSV, lambda: b"Item,Volume (L)\nTent,9\n", 422, "no column for mass"),
    "doctype": ("route", GPX, lambda: track(3, DOCTYPE), 422, "doctype"),
    # On a busy machine the reader's time is over before the last point is counted.
    "a point too many": (
        "route", GPX, lambda: track(1_000_001), 422, "too_large|file_too_costly"),
}  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_a_heavy_or_hostile_file_is_answered_and_the_service_goes_on(shared_client, case):
    """The answer is right or names what is wrong, without a 5xx; then a plain file is read."""
    path, media_type, made, status, words = CASES[case]
    content = made()
    answer = shared_client.post(
        f"/v1/files/{path}", content=content, headers={"Content-Type": media_type}
    )
    assert answer.status_code == status, answer.text[:500]
    assert any(word in answer.text for word in words.split("|"))
    assert len(answer.content) < 5 * MB
    plain = shared_client.post(
        "/v1/files/gear-list", content=b"Item,Mass\nTent,3 kg\n", headers={"Content-Type": CSV}
    )
    assert plain.status_code == 200
    assert shared_client.get("/healthz").json()["status"] == "ok"


def test_the_heavy_files_are_as_heavy_as_they_say():
    """The sheets of 10 MB are between 8 and 12 MB, and the bomb is small."""
    assert 8 * MB < len(ten_megabyte_csv(100_000)) < 12 * MB
    assert len(bomb()) < MB
