"""The JSON parsing corpus of Nicolas Seriot (MIT licence), posted to every route with a body."""

import time
from pathlib import Path

import pytest

BODY_ROUTES = ("/v1/plans", "/v1/plan-checks")

# Valid by the grammar of RFC 8259, which only advises against what they hold: section 4 on names
# that are not unique, section 8.2 on characters. This service refuses both on purpose.
REFUSED_ON_PURPOSE = {
    "y_object_duplicated_key.json",
    "y_object_duplicated_key_and_value.json",
    "y_object_escaped_null_in_key.json",
    "y_string_null_escape.json",
}


@pytest.fixture(scope="module")
def corpus(outside_data: Path) -> list[Path]:
    """The files of the corpus."""
    files = sorted((outside_data / "corpora" / "json-parsing").glob("[yni]_*.json"))
    if not files:
        pytest.fail("the folder of outside data holds no corpora/json-parsing")
    return files


@pytest.mark.parametrize("route", BODY_ROUTES)
def test_the_corpus_is_told_apart(shared_client, corpus, route):
    """No file causes a 5xx or takes 2 s; bad JSON is refused; good JSON is no syntax error."""
    seen = set()
    for file in corpus:
        begin = time.monotonic()
        answer = shared_client.post(
            route, content=file.read_bytes(), headers={"Content-Type": "application/json"}
        )
        assert time.monotonic() - begin < 2, file.name
        assert answer.status_code < 500, file.name
        kind = file.name[0]
        seen.add(kind)
        if kind == "n" or file.name in REFUSED_ON_PURPOSE:
            assert answer.status_code == 400, file.name
        elif kind == "y":
            assert answer.status_code != 400, file.name
        if answer.status_code >= 400:
            assert answer.headers["content-type"] == "application/problem+json", file.name
    assert seen == {"y", "n", "i"}
