"""A file as one sheet with its header, whichever kind of file it is."""

from __future__ import annotations

from dataclasses import dataclass

from api_schema.list_file_answer import ReadSheetAnswer
from service.errors import Fault, RequestFaults
from service.files.read import limits
from service.files.read.cells import Sheet
from service.files.read.columns import FileForm
from service.files.read.csv_sheet import csv_sheet
from service.files.read.headers import Header, best_header, known_names, read_header
from service.files.read.places import file_fault, shown
from service.files.read.workbook_sheet import workbook_sheets

_ZIP = b"PK"


@dataclass(frozen=True, slots=True)
class ChosenSheet:
    """The sheet that is read, its header, and the names of the sheets that are not."""

    sheet: Sheet
    header: Header
    others: tuple[str, ...]

    def answer(self, rows: int) -> ReadSheetAnswer:
        """What was read, for an answer."""
        return ReadSheetAnswer(
            file=shown(self.sheet.file),
            sheet=None if self.sheet.name is None else shown(self.sheet.name),
            header_row=self.header.row.number,
            rows=rows,
            columns={shown(m.header): m.column.field for m in self.header.mapped},
            columns_not_read=[shown(name) for name in self.header.not_read],
            sheets_not_read=[shown(name) for name in self.others],
        )


def choose_sheet(
    content: bytes, file: str, form: FileForm, wanted: str | None, faults: list[Fault]
) -> ChosenSheet:
    """The sheet of that name, or the one whose header has most known names.

    Faults of the header are added to `faults`. Raises RequestFaults where nothing can be read.
    """
    sheets, hidden = _sheets(content, file, form)
    candidates = sheets if wanted is None else [s for s in sheets if s.name == wanted]
    if not candidates:
        raise _refused(file, "no_such_sheet", "There is no visible sheet with this name.")
    found = [(*best_header(sheet, form), sheet) for sheet in candidates]
    most_names = max((count for count, _, _ in found), default=0)
    best = [(row, sheet) for count, row, sheet in found if row is not None and count == most_names]
    if not best:
        raise _refused(
            file,
            "no_header",
            f"No row within the first {limits.HEADER_ROWS} names any column of a {form.what}. "
            f"Names that are known: {', '.join(c.names[0] for c in form.columns[:8])}.",
        )
    if len(best) > 1:
        detail = f"Several sheets look like a {form.what}. Name one with the parameter sheet."
        raise _refused(file, "several_sheets", detail)
    row, sheet = best[0]
    others = (s.name or "" for s in sheets if s is not sheet)
    return ChosenSheet(sheet, read_header(sheet, row, form, faults), (*others, *hidden))


def _sheets(content: bytes, file: str, form: FileForm) -> tuple[list[Sheet], list[str]]:
    if len(content) > limits.SHEET_BYTES:
        most = limits.SHEET_BYTES // 2**20
        raise _refused(file, "too_large", f"The file is larger than {most} MiB.")
    if content.startswith(_ZIP):
        return workbook_sheets(content, file)
    return [csv_sheet(content, file, lambda names: known_names(names, form))], []


def _refused(file: str, code: str, detail: str) -> RequestFaults:
    return RequestFaults((file_fault(file, code, detail),))
