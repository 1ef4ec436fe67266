"""The library: requests take it, it says that nothing was weighed, and scales go before it."""

import csv
import io

import pytest

from api_schema.examples import SMALLEST_REQUEST
from api_schema.library_answer import GearLibraryAnswer, StarterMenusAnswer
from service.files.read.gear_list import read_gear_list
from service.library.as_request import GENERIC_KIT_ID, gear_document, kit_document, library_table
from service.library.menus import STARTER_MENUS
from service.library.shared_gear import SHARED_GEAR, SOURCE, TYPICAL
from service.reports.gear_list import WEIGHED_COLUMN, weigh_in_table
from service.routes import library
from service.translation import TRANSLATION

NOT_WEIGHED = "The mass is typical, not weighed. Weigh the item."


def figures_of(**parts) -> tuple:
    """The requirements of the smallest request with other parts."""
    return tuple(TRANSLATION.state_requirements({**SMALLEST_REQUEST, **parts}, None).figures)


def test_a_request_takes_the_gear_and_the_kit():
    """Shared gear and the kit of the library are in order as parts of a request."""
    roster = [{**p, "personal_kit": GENERIC_KIT_ID} for p in SMALLEST_REQUEST["roster"]]
    gear = [item for item in gear_document() if item["needed"] != "at_place"]
    assert figures_of(gear=gear, roster=roster, personal_kits={GENERIC_KIT_ID: kit_document()})


@pytest.mark.parametrize("menu", STARTER_MENUS, ids=lambda menu: menu.menu_id)
def test_a_request_takes_each_starter_menu(menu):
    """Every menu covers all elevations and reserves, and says nothing about allergens."""
    assert figures_of(menu=menu.document())
    assert all("contains" not in night_set for night_set in menu.document()["night_sets"])


def test_every_mass_says_that_it_was_not_weighed():
    """Read as a gear list, each row of the library is listed as not weighed."""
    answer = read_gear_list(library_table().as_csv(), "library.csv")
    (rows,) = [a.rows for a in answer.assumed if a.what == NOT_WEIGHED]
    count = len(answer.gear) + len(answer.personal_kits[GENERIC_KIT_ID])
    assert len(rows) == count == len(SHARED_GEAR) + len(kit_document())
    assert (TYPICAL, SOURCE) == ("typical, not weighed", "from memory, unverified")


def test_no_item_of_the_library_is_there_twice():
    """Ids and names are unique, and masses are of a size that people carry."""
    assert len({item.item_id for item in SHARED_GEAR}) == len(SHARED_GEAR)
    assert all(20 <= item.mass_g <= 6000 for item in SHARED_GEAR)


def test_a_weighed_mass_goes_before_an_expected_one():
    """What is written into the blank column is the mass; what is not weighed is listed."""
    table = weigh_in_table({**SMALLEST_REQUEST})
    assert table.columns[-1] == WEIGHED_COLUMN
    rows = list(csv.reader(io.StringIO(table.as_csv().decode())))
    at = next(n for n, row in enumerate(rows) if row[0] == "tent")
    rows[at][-1] = "4123"
    out = io.StringIO()
    csv.writer(out).writerows(rows)
    answer = read_gear_list(out.getvalue().encode(), "weighed.csv")
    masses = {item["item_id"]: item["mass"] for item in answer.gear}
    assert (masses["tent"], masses["stove"]) == ("4123 g", "480 g")
    noted = {a.what: a.rows for a in answer.assumed}
    assert noted["The weighed mass is taken, not the one that was expected."] == [at + 1]
    assert at + 1 not in noted[NOT_WEIGHED]
    assert len(noted[NOT_WEIGHED]) == len(rows) - 2


def test_the_library_has_its_addresses(shared_client):
    """Gear and menus keep to their models, and the gear is CSV on request."""
    assert {route.path for route in library.router.routes} == {
        "/v1/library/gear",
        "/v1/library/menus",
    }
    gear = GearLibraryAnswer.model_validate_json(shared_client.get("/v1/library/gear").content)
    menus = StarterMenusAnswer.model_validate_json(shared_client.get("/v1/library/menus").content)
    assert len(gear.gear) == len(SHARED_GEAR)
    assert len(menus.menus) == len(STARTER_MENUS)
    listed = shared_client.get("/v1/library/gear?format=csv&byte_order_mark=true").content
    assert listed == b"\xef\xbb\xbf" + library_table().as_csv()
