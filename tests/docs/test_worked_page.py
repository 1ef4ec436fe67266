"""The worked page from snow to cans is what the code comes to."""

import re

from tests.docs.write_worked_page import PAGE, worked_page


def test_the_page_is_current():
    """Written anew, the page stays as it is; else run python -m tests.docs.write_worked_page."""
    assert PAGE.read_text(encoding="utf-8") == worked_page()


def test_the_page_adds_up():
    """The four numbers of the camp's table add up to its last one, within their rounding."""
    cells = re.findall(
        r"^\| (.+?) \| .*?\| (\d+) \|$", PAGE.read_text(encoding="utf-8"), re.MULTILINE
    )
    table = {name: int(ml) for name, ml in cells if not name.startswith(("can", "bottle"))}
    total = table.pop("total")
    assert len(table) == 4
    assert abs(sum(table.values()) - total) <= 2


def test_the_page_shows_a_litre_brought_to_the_boil_by_hand():
    """At -18 degC and 88.3 degC: 2.1 × 18 - 1.2 + 333.4 + 4.19 × 88.3 = 740 kJ (by hand, 1 kJ)."""
    text = PAGE.read_text(encoding="utf-8")
    shown = float(re.search(r"a litre brought to the boil takes ([\d.]+) kJ", text).group(1))
    assert abs(shown - 739.9) <= 1
