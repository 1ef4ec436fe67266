"""A figure that is read somewhere names the document, in the rulebook and beside its check."""

import csv
import re
from importlib import import_module
from pathlib import Path

import pytest

from service.translate.read import defaults, generic_food
from service.translate.read.defaults import Default
from service.translate.read.generic_food import BANDS, BOTTLE, STORM
from service.translate.read.generic_kit import PERSONAL_KIT
from solver.checker.request_rules import REQUEST_RULES
from solver.rulebook import RULES, SourceStatus, rule
from solver.rulebook.documents import cited
from solver.rulebook.sources import ALL_DOCUMENTS, DOCUMENTS
from solver.rulebook.sources.departures import DEPARTURES
from solver.rulebook.sources.naming import named
from solver.rulebook.sources.of_defaults import DEFAULTS
from solver.rulebook.sources.of_living import LIVING
from solver.rulebook.sources.of_travel import TRAVEL

ROOT = Path(__file__).parents[2]
FROM_DOCUMENTS = {SourceStatus.READ, SourceStatus.PRINCIPLE}
ON_REQUESTS = {rule_id for rule_id, _ in REQUEST_RULES}
GENERIC = [
    *(value for value in vars(defaults).values() if isinstance(value, Default)),
    *BANDS.values(),
    STORM,
    BOTTLE,
]


@pytest.mark.parametrize("entry", RULES, ids=[entry.rule_id for entry in RULES])
def test_a_rule_is_read_in_documents_or_says_that_it_is_not(entry):
    """Only a rule that names a document is called read, and one that names some is called so."""
    assert (entry.source in FROM_DOCUMENTS) == bool(entry.documents)


@pytest.mark.parametrize("default", GENERIC, ids=range(len(GENERIC)))
def test_a_generic_default_is_read_in_documents_or_says_that_it_is_not(default):
    """A default of gear, sets or fuel is called read only with a document, which it then names."""
    assert (default.source in FROM_DOCUMENTS) == bool(default.documents)
    assert default.source_words.startswith(default.source)
    assert all(c.document.title in default.source_words for c in default.documents)


def test_the_generic_kit_claims_no_document():
    """Each piece of the generic personal kit is common practice, and says so."""
    assert {item.source for item in PERSONAL_KIT} == {SourceStatus.PRACTICE}


@pytest.mark.parametrize("entry", [e for e in RULES if e.documents], ids=lambda e: e.rule_id)
def test_the_check_names_the_documents_of_its_rule(entry):
    """The docstring of a rule's check ends with the ids of the rule's documents, in order."""
    room = "request_rules" if entry.rule_id in ON_REQUESTS else "rules"
    doc = import_module(f"solver.checker.{room}.{entry.rule_id}").__doc__ or ""
    line = " ".join(doc.rpartition("\nDocuments: ")[2].split())
    assert line == ", ".join(c.document.document_id for c in entry.documents) + "."


@pytest.mark.parametrize("entry", [e for e in RULES if not e.documents], ids=lambda e: e.rule_id)
def test_a_check_without_documents_names_none(entry):
    """A rule that is common practice, memory or arithmetic has no line of documents."""
    room = "request_rules" if entry.rule_id in ON_REQUESTS else "rules"
    assert "Documents:" not in (
        import_module(f"solver.checker.{room}.{entry.rule_id}").__doc__ or ""
    )


def test_no_text_of_the_code_claims_guidance_without_a_name():
    """The words "published guidance" stand in the name of the status and nowhere else in code."""
    claims = {
        str(file.relative_to(ROOT))
        for room in ("api_schema", "service", "solver")
        for file in (ROOT / room).rglob("*.py")
        if re.search(r"published\s+guidance", file.read_text(encoding="utf-8"), re.IGNORECASE)
    }
    assert claims == {"solver/rulebook/kinds.py"}


def test_every_citation_is_of_a_rule_and_every_document_is_cited():
    """No citation or departure is of a rule that is gone, and no document is without use."""
    assert {*TRAVEL, *LIVING} == {entry.rule_id for entry in RULES if entry.documents}
    assert not TRAVEL.keys() & LIVING.keys()
    assert all(rule(rule_id).departs == why for rule_id, why in DEPARTURES.items())
    used = {
        c.document.document_id
        for citations in (*TRAVEL.values(), *LIVING.values(), *DEFAULTS.values())
        for c in citations
    }
    assert used == set(DOCUMENTS)
    assert len(DOCUMENTS) == len(ALL_DOCUMENTS)


def test_an_unknown_document_is_refused():
    """A citation of a document that is not listed fails at once."""
    with pytest.raises(KeyError):
        named({"some_rule": (("no-such-document", "", "anything"),)})


def test_a_status_is_told_with_title_publisher_year_and_section():
    """The words of a source name each document whole; without one they are the status alone."""
    words = cited(SourceStatus.READ, rule("pack_light_for_body").documents)
    assert "FM 3-21.8 (US Army, no year seen), 7-20, 7-21" in words
    assert "ADP 3-90 (US Army, no year seen, seen quoted only)" in words
    assert cited(SourceStatus.PRACTICE, ()) == "common practice, no source"


def test_each_generic_food_names_its_entry_of_a_listed_table():
    """The table of foods names the listed documents, and each food an entry and a status."""
    text = (ROOT / "solver/calculators/data/generic_foods.csv").read_text(encoding="utf-8")
    comments = " ".join(line.lstrip("# ") for line in text.splitlines() if line.startswith("#"))
    for citation in DEFAULTS["foods"]:
        assert str(citation.document.year) in comments
    assert DOCUMENTS["food-table-28"].title in comments
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    for food in csv.DictReader(lines):
        assert food["usda_description"]
        assert food["status"] in {"read", "quoted"} or "memory, unverified" in food["status"]


def test_the_generic_sets_meet_the_target_of_their_elevation():
    """Each generic set has at least the energy that the rulebook recommends where it is used."""
    numbers = {setting.name: setting.value for setting in rule("energy_on_target").settings}
    assert generic_food.LOW.energy_kcal >= numbers["low_energy_kcal"]
    assert generic_food.MID.energy_kcal >= numbers["middle_energy_kcal"]
    assert generic_food.HIGH.energy_kcal >= numbers["high_energy_kcal"]
    assert generic_food.STORM.energy_kcal >= numbers["storm_energy_kcal"]
