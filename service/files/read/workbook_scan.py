"""A look through a workbook before anything else opens it: how large it really is.

Each part is unpacked in pieces that are counted and thrown away, so that a bomb is refused after
64 MiB whatever its directory says. XML parts go through expat, which refuses a DOCTYPE and counts
rows, columns and cells. What is kept is what openpyxl's quick reader does not tell: which sheets
are hidden, which cells are merged, which formulas were never computed.
"""

from __future__ import annotations

import io
import posixpath
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.parsers import expat

from service.errors import RequestFaults
from service.files.read import limits
from service.files.read.places import file_fault
from service.files.read.sheet_counts import RefusedError, SheetCounts

_PIECE_BYTES = 256 * 1024
_NOT_ZIP = (
    "This is not a workbook. Save it as .xlsx; .xls, .ods and files with a password are not read."
)


@dataclass(frozen=True, slots=True)
class ScannedSheet:
    """A sheet of a workbook in the order of its tabs."""

    name: str
    hidden: bool
    merges: tuple[str, ...]
    has_formulas: bool


@dataclass(slots=True)
class _Seen:
    """What the small parts of a workbook say."""

    sheets: list[tuple[str, bool, str]] = field(default_factory=list)
    targets: dict[str, str] = field(default_factory=dict)


def scan_workbook(content: bytes, file: str) -> tuple[ScannedSheet, ...]:
    """The sheets of a workbook; RequestFaults where it is no workbook or too large."""
    seen, counted = _Seen(), {}
    cells_left = limits.CELLS
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            for name, pieces in _parts(archive):
                counts = SheetCounts(cells_left=cells_left)
                _read_part(name, pieces, counts, seen)
                cells_left -= counts.cells
                counted[name] = counts
    except RefusedError as error:
        raise RequestFaults((file_fault(file, error.code, str(error)),)) from None
    except expat.ExpatError:
        raise RequestFaults(
            (file_fault(file, "bad_xml", "A part of the workbook is not XML. Save it again."),)
        ) from None
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError):
        raise RequestFaults((file_fault(file, "not_a_workbook", _NOT_ZIP),)) from None
    if not seen.sheets:
        raise RequestFaults((file_fault(file, "not_a_workbook", _NOT_ZIP),))
    return tuple(
        ScannedSheet(name, hidden, tuple(counts.merges), counts.formulas > 0)
        for name, hidden, relation in seen.sheets
        for counts in (counted.get(seen.targets.get(relation, ""), SheetCounts(cells_left=0)),)
    )


def _parts(archive: zipfile.ZipFile) -> Iterator[tuple[str, Iterator[bytes]]]:
    if len(archive.infolist()) > limits.PARTS:
        raise RefusedError("too_large", f"The workbook has more than {limits.PARTS} parts.")
    left = [limits.UNPACKED_BYTES]

    def pieces(entry: zipfile.ZipInfo) -> Iterator[bytes]:
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise zipfile.BadZipFile
        with archive.open(entry) as part:
            while piece := part.read(_PIECE_BYTES):
                left[0] -= len(piece)
                if left[0] < 0:
                    most = limits.UNPACKED_BYTES // 2**20
                    raise RefusedError(
                        "too_large", f"The workbook unpacks to more than {most} MiB."
                    )
                yield piece

    for entry in archive.infolist():
        yield entry.filename, pieces(entry)


def _read_part(name: str, pieces: Iterator[bytes], counts: SheetCounts, seen: _Seen) -> None:
    if not name.endswith((".xml", ".rels")):
        for _ in pieces:
            pass
        return
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartDoctypeDeclHandler = _refuse_doctype
    if name.startswith("xl/worksheets/") and name.endswith(".xml"):
        parser.StartElementHandler = counts.begin
    elif name == "xl/workbook.xml":
        parser.StartElementHandler = lambda tag, given: _see_sheet(tag, given, seen)
    elif name == "xl/_rels/workbook.xml.rels":
        parser.StartElementHandler = lambda tag, given: _see_relation(tag, given, seen)
    for piece in pieces:
        parser.Parse(piece, False)  # noqa: FBT003 - expat takes no keywords
    parser.Parse(b"", True)  # noqa: FBT003


def _refuse_doctype(*_: object) -> None:
    raise RefusedError("doctype", "The workbook has a DOCTYPE, which no spreadsheet writes.")


def _see_sheet(tag: str, given: dict[str, str], seen: _Seen) -> None:
    if tag.rpartition(" ")[2] == "sheet":
        hidden = given.get("state", "visible") != "visible"
        relation = next((v for k, v in given.items() if k.endswith("relationships id")), "")
        seen.sheets.append((given.get("name", ""), hidden, relation))


def _see_relation(tag: str, given: dict[str, str], seen: _Seen) -> None:
    if tag.rpartition(" ")[2] == "Relationship" and "Id" in given and "Target" in given:
        target = posixpath.normpath(posixpath.join("/xl", given["Target"])).lstrip("/")
        seen.targets[given["Id"]] = target
