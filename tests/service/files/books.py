"""Workbooks, tracks and faults for the tests of files."""

import io
import math
import random
import zipfile
from collections.abc import Callable
from typing import Any

import pytest
import xlsxwriter

from service.errors import Fault, RequestFaults


def book(*sheets: tuple[str, list[list[Any]]], change: Callable | None = None) -> bytes:
    """A workbook with these sheets of rows; `change` gets the open workbook and its sheets."""
    out = io.BytesIO()
    workbook = xlsxwriter.Workbook(out, {"in_memory": True})
    made = []
    for name, rows in sheets:
        sheet = workbook.add_worksheet(name)
        for index, row in enumerate(rows):
            sheet.write_row(index, 0, row)
        made.append(sheet)
    if change is not None:
        change(workbook, *made)
    workbook.close()
    return out.getvalue()


def with_part(content: bytes, name: str, text: bytes) -> bytes:
    """A workbook with one more part, or with another in its place."""
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for entry in old.infolist():
            if entry.filename != name:
                new.writestr(entry.filename, old.read(entry))
        new.writestr(name, text)
    return out.getvalue()


def faults_in(read: Callable, *arguments: Any) -> tuple[Fault, ...]:
    """The faults with which a file is refused."""
    with pytest.raises(RequestFaults) as caught:
        read(*arguments)
    return caught.value.faults


def codes_in(read: Callable, *arguments: Any) -> list[tuple[str, str]]:
    """The codes of the faults, each with its cell such as C7, or with nothing."""
    return [
        (f.code, f"{f.place.column or ''}{f.place.row or ''}") for f in faults_in(read, *arguments)
    ]


METRE_DEG = 1 / 111_194.93


def elevation_m(along_m: float) -> float:
    """The elevation of the made slope: a steady rise with waves that never fall [m]."""
    return 2000 + 0.08 * along_m + 60 * math.sin(along_m / 900)


def made_track(points: int, *, noise_m: float, length_m: float = 14_000, seed: int = 1) -> str:
    """A track due north over the made slope, with two legs between three waypoints."""
    chance = random.Random(seed)
    waypoints = "".join(
        f'<wpt lat="{60 + at * METRE_DEG:.7f}" lon="10"><name>{name}</name></wpt>'
        for name, at in (("Road", 0.0), ("Camp 1", length_m / 2), ("Camp 2", length_m))
    )
    lines = [f'<gpx xmlns="http://www.topografix.com/GPX/1/1">{waypoints}<trk><trkseg>']
    for number in range(points):
        along = length_m * number / (points - 1)
        north = 60 + (along + chance.gauss(0, noise_m)) * METRE_DEG
        east = 10 + chance.gauss(0, noise_m) * 2 * METRE_DEG
        up = elevation_m(along) + chance.gauss(0, noise_m)
        lines.append(f'<trkpt lat="{north:.7f}" lon="{east:.7f}"><ele>{up:.1f}</ele></trkpt>')
    return "\n".join([*lines, "</trkseg></trk></gpx>"])
