"""The picture of the README is drawn from its rows, and says itself what it shows."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

from tests.docs.write_load_sheet_picture import PICTURE, ROWS, load_sheet_picture

SHEET = json.loads(ROWS.read_text(encoding="utf-8"))
README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def test_the_picture_is_current():
    """Drawn anew it stays as it is; else run python -m tests.docs.write_load_sheet_picture."""
    assert load_sheet_picture(SHEET) == PICTURE.read_text(encoding="utf-8")


def test_the_picture_has_a_text_alternative_and_every_load():
    """Title and finding stand in the SVG, and each number of the rows; nothing runs in it."""
    root = ET.fromstring(PICTURE.read_text(encoding="utf-8"))  # noqa: S314 - our own file
    words = [part.strip() for part in root.itertext()]
    assert words[0].startswith("A load sheet")
    assert all(cell in words for row in SHEET["rows"] for cell in row[:4])
    assert "script" not in {part.tag.rpartition("}")[2] for part in root.iter()}


def test_the_picture_stands_on_the_first_screen():
    """The README shows it before its second heading, with words for those who do not see it."""
    assert "![A load sheet" in README.partition("\n## ")[0]
