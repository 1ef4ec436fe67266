"""Public text uses one word for one thing: no phrase that was replaced comes back."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.errors import PROBLEMS
from service.settings import Settings
from service.translate.write.cautions import CAUTIONS
from service.translation import TRANSLATION
from service.write_openapi import published_text
from solver.rulebook import RULES
from solver.rulebook.not_rules import NOT_RULES
from tests.docs.replaced_phrases import REPLACED, phrases_in

ROOT = Path(__file__).parents[2]
DOCUMENTS = (
    "README.md",
    "CHANGELOG.md",
    "docker/README.md",
    "examples/README.md",
    "examples/snow-to-cans.md",
    "examples/solver-growth.md",
    "service/guides/glossary.md",
    "service/guides/questions.md",
)
PAGES = (
    "/docs",
    "/docs/rules",
    "/docs/glossary",
    "/docs/messages",
    "/docs/questions",
    "/redoc",
    "/v1/rules",
    "/v1/limits",
    "/v1/units",
)


@pytest.fixture(scope="module")
def shared_client(tmp_path_factory) -> Iterator[TestClient]:
    """A caller of one application for all questions of this module."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3")
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        yield caller


@pytest.fixture(scope="module")
def printed(shared_client) -> str:
    """The smallest request's plan as examples/print_plan.py prints it."""
    answer = shared_client.post(
        "/v1/plans",
        content=(ROOT / "examples/smallest-request.json").read_bytes(),
        headers={"Prefer": "wait=50", "Content-Type": "application/json"},
    ).json()
    assert answer["outcome_kind"] == "solved"
    run = subprocess.run(
        [sys.executable, "examples/print_plan.py"],
        cwd=ROOT,
        input=json.dumps(answer),
        capture_output=True,
        text=True,
        check=True,
    )
    return run.stdout


def _rulebook() -> str:
    words = [f"{rule.sentence}\n{rule.firm}\n{rule.default or ''}" for rule in RULES]
    return "\n".join([*words, *(f"{entry.statement}\n{entry.reason}" for entry in NOT_RULES)])


def _problems() -> str:
    return "\n".join(f"{kind.title}\n{kind.advice}" for kind in PROBLEMS.values())


def _cautions() -> str:
    return "\n".join(caution.text for caution in CAUTIONS)


TEXTS: tuple[Callable[[], str], ...] = (published_text, _rulebook, _problems, _cautions)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_documents_use_no_replaced_phrase(name):
    """No document for readers uses a phrase that was replaced."""
    text = (ROOT / name).read_text(encoding="utf-8")
    assert text.strip()
    assert phrases_in(text) == []


@pytest.mark.parametrize("text", TEXTS, ids=lambda text: text.__name__.strip("_"))
def test_texts_of_the_service_use_no_replaced_phrase(text):
    """The OpenAPI description, the rules, the problems and the cautions use no such phrase."""
    assert len(text()) > 1000
    assert phrases_in(text()) == []


@pytest.mark.parametrize("path", PAGES)
def test_pages_use_no_replaced_phrase(shared_client, path):
    """No page and no list that the service shows uses a phrase that was replaced."""
    answer = shared_client.get(path)
    assert answer.status_code == 200
    assert phrases_in(unescape(answer.text)) == []


def test_the_printed_plan_uses_no_replaced_phrase(printed):
    """A plan as it is printed uses no phrase that was replaced."""
    assert "preferences not met" in printed
    assert phrases_in(printed) == []


@pytest.mark.parametrize("phrase", REPLACED, ids=lambda phrase: phrase.example)
def test_a_planted_phrase_is_found_wherever_it_stands(phrase):
    """Each phrase is found in the rulebook's text once it is planted, also across lines."""
    planted = f"{_rulebook()}\nIt says. {phrase.example}\n{_cautions()}"
    broken = f"{_rulebook()}\nIt says. {phrase.example.replace(' ', chr(10))}\n{_cautions()}"
    assert len(phrases_in(planted)) >= 1
    assert phrases_in(broken) == phrases_in(planted)


@pytest.mark.parametrize("phrase", REPLACED, ids=lambda phrase: phrase.example)
def test_what_is_written_instead_is_no_replaced_phrase_itself(phrase):
    """The advice for each phrase keeps to the list."""
    assert phrases_in(phrase.instead) == []


@pytest.mark.parametrize(
    "right",
    [
        "One party's trip over one leg, on every trip of the day.",
        "Height is how tall a person is.",
        "The load told them nothing.",
        "A caution is a standing warning.",
    ],
)
def test_right_uses_of_a_word_are_let_pass(right):
    """Words that the list has in phrases may stand elsewhere."""
    assert phrases_in(right) == []
