"""The published description: complete, valid, and the same as what is served."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from service.http.described_headers import READ_AGAIN
from service.http.sent_schemas import sent_schemas
from service.translation import TRANSLATION
from service.write_openapi import PUBLISHED, published_text

EXAMPLES = Path(__file__).parents[3] / "examples"
READERS = {
    "/v1/plans": TRANSLATION.read_plan_request,
    "/v1/plan-checks": TRANSLATION.judge_plan,
    "/v1/requirements": TRANSLATION.state_requirements,
}


@pytest.fixture(scope="module")
def document() -> dict:
    """The committed description."""
    return json.loads(PUBLISHED.read_text(encoding="utf-8"))


def operations(document: dict) -> list[tuple[str, str, dict]]:
    """Each path, method and operation."""
    return [
        (path, method, operation)
        for path, methods in document["paths"].items()
        for method, operation in methods.items()
    ]


def references(part: object) -> set[str]:
    """Every $ref in a part of the description."""
    if isinstance(part, dict):
        own = {part["$ref"]} if isinstance(part.get("$ref"), str) else set()
        return own.union(*map(references, part.values()))
    return set().union(*map(references, part)) if isinstance(part, list) else set()


def test_the_committed_description_is_the_current_one():
    """After `python -m service.write_openapi` the committed file does not change."""
    assert PUBLISHED.read_text(encoding="utf-8") == published_text()


def test_the_served_description_is_the_committed_one(shared_client, document):
    """/openapi.json serves what is committed."""
    assert shared_client.get("/openapi.json").json() == document


def test_every_operation_says_what_it_is(document):
    """Each operation has an id of its own, a summary and a description."""
    found = [operation for _, _, operation in operations(document)]
    ids = [operation["operationId"] for operation in found]
    assert len(set(ids)) == len(ids) > 8
    assert all(operation["summary"] and operation["description"] for operation in found)


def test_every_tag_is_declared_and_used(document):
    """Each group of operations has a description, and none is empty."""
    declared = [tag["name"] for tag in document["tags"]]
    used = {tag for _, _, operation in operations(document) for tag in operation["tags"]}
    assert set(declared) == used
    assert len(declared) == len(used)
    assert all(tag["description"] for tag in document["tags"])


def test_every_operation_documents_its_problems(document):
    """Each operation names the problem documents it can answer with, 406 and 500 among them."""
    for path, method, operation in operations(document):
        answers = operation["responses"]
        assert {"406", "500", "503"} <= set(answers), (path, method)
        for status, answer in answers.items():
            if int(status) >= 400:
                assert set(answer["content"]) == {"application/problem+json"}, (path, status)


def test_every_schema_is_valid_and_every_reference_leads_somewhere(document):
    """The schemas obey JSON Schema 2020-12, which OpenAPI 3.1 uses, and none is missing."""
    schemas = document["components"]["schemas"]
    for schema in schemas.values():
        Draft202012Validator.check_schema(schema)
    headers = {f"#/components/headers/{name}" for name in document["components"]["headers"]}
    assert references(document) == headers | {f"#/components/schemas/{name}" for name in schemas}


def test_every_body_has_an_example_that_is_accepted(document):
    """Each example keeps to its schema, and is a request in order where a translation reads it."""
    checked = 0
    for path, _, operation in operations(document):
        for media in operation.get("requestBody", {}).get("content", {}).values():
            for example in media["examples"].values():
                body = {"components": document["components"], **media["schema"]}
                Draft202012Validator(body).validate(example["value"])
                assert path not in READERS or READERS[path](example["value"])
                checked += 1
    assert checked >= len(READERS)


def test_the_published_example_is_the_one_in_the_folder(document):
    """The smallest request in the description is examples/smallest-request.json."""
    body = document["paths"]["/v1/plans"]["post"]["requestBody"]
    example = body["content"]["application/json"]["examples"]["smallest"]["value"]
    file = EXAMPLES / "smallest-request.json"
    assert example == json.loads(file.read_text(encoding="utf-8"))


def test_no_two_schemas_share_a_name():
    """A name with a module's path in it, which clients would show, means that two had one name."""
    names = json.loads(PUBLISHED.read_text(encoding="utf-8"))["components"]["schemas"]
    assert [name for name in names if "__" in name] == []


def test_no_field_has_a_default_in_the_description(document):
    """Generators of TypeScript take a field with a default for one that must be sent."""
    sent = sent_schemas(document)
    assert "PlanRequest" in sent
    fields = [
        f"{name}.{field}"
        for name, schema in document["components"]["schemas"].items()
        for field, described in schema.get("properties", {}).items()
        if "default" in described
    ]
    assert fields == []
    racing = document["components"]["schemas"]["FlightRequest"]["properties"]
    assert any(
        "If not given, it is `false`." in one.get("description", "") for one in racing.values()
    )


def test_every_table_has_an_address_that_answers_csv_alone(document):
    """Where JSON or CSV is answered by Accept, a generated client finds the CSV beside it."""
    paths = document["paths"]
    both = {
        path
        for path, operations in paths.items()
        if {"application/json", "text/csv"} <= set(_content_of_get(operations))
    }
    assert len(both) > 8
    for path in both:
        beside = (f"{path}.csv", f"{path}/table.csv")
        found = [list(_content_of_get(paths[one])) for one in beside if one in paths]
        assert found == [["text/csv"]], path


def _content_of_get(operations: dict) -> dict:
    answers = operations.get("get", {}).get("responses", {})
    return answers.get("200", {}).get("content", {})


def test_every_answer_that_is_read_says_how_it_is_read_again(document):
    """Each GET that answers as one piece has a tag, and may be asked for only if it changed."""
    for path, method, operation in operations(document):
        answer = operation["responses"].get("200", {})
        if method != "get" or "text/event-stream" in answer.get("content", {}):
            assert "304" not in operation["responses"], path
            assert method != "get" or "412" not in operation["responses"], path
            continue
        assert "ETag" in answer["headers"], path
        assert set(operation["responses"]["304"]) == {"description", "headers"}, path
        named = [(one["in"], one["name"]) for one in operation["parameters"]]
        assert named.count(("header", "If-None-Match")) == 1, path
        assert named.count(("header", "If-Match")) == 1, path
        assert "changed_since" in operation["responses"]["412"]["description"], path


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("get", "/v1/plans/{plan_id}", "200"),
        ("post", "/v1/plans/{plan_id}/cancel", "202"),
        ("post", "/v1/plans/{plan_id}/finish", "202"),
        ("post", "/v1/plans", "202"),
        ("post", "/v1/comparisons", "202"),
        ("get", "/v1/stress-tests/{stress_test_id}", "200"),
        ("get", "/v1/plans/{plan_id}/loads", "409"),
        ("post", "/v1/plans", "503"),
    ],
)
def test_what_is_not_final_says_when_to_read_it_again(document, method, path, status):
    """The header stands where the service may send it."""
    headers = document["paths"][path][method]["responses"][status]["headers"]
    assert headers["Retry-After"] == READ_AGAIN["Retry-After"]
    assert headers["Retry-After"]["schema"] == {"type": "integer", "minimum": 0}


def test_a_described_condition_is_kept(shared_client):
    """Asked with the tag of the answer, an address answers 304 without a body."""
    tag = shared_client.get("/v1/units").headers["ETag"]
    again = shared_client.get("/v1/units", headers={"If-None-Match": tag})
    assert (again.status_code, again.content, again.headers["ETag"]) == (304, b"", tag)
