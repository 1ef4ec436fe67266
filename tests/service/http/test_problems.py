"""Every way to be refused is a problem document with its own status, and repeats nothing."""

import json

import pytest
from sqlalchemy import event

from service.errors import PROBLEMS, Fault, ServiceProblem
from service.fault_words import WORDS
from service.http.parameter_faults import parameter_fault
from service.http.problem_answers import problem_answer, problem_details
from service.http.strict_json import MOST_VALUES
from tests.docs.fault_texts import FAULTS

JSON_TYPE = {"Content-Type": "application/json"}
SECRET = "do-not-repeat-me"  # noqa: S105 - a marker, not a password


def assert_problem(answer, status: int, code: str) -> dict:
    """The answer is this problem; gives its document."""
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    document = answer.json()
    assert document["status"] == status
    assert document["code"] == code
    assert document["title"] == PROBLEMS[code].title
    assert SECRET not in answer.text
    return document


@pytest.mark.parametrize(
    ("method", "path", "arguments", "status", "code"),
    [
        ("GET", f"/{SECRET}", {}, 404, "not_found"),
        ("GET", f"/v1/plans/{SECRET}", {}, 404, "not_found"),
        ("GET", "/v1/plans/plan_" + "0" * 26, {}, 404, "not_found"),
        ("GET", "/v1/plans/%00%ff", {}, 404, "not_found"),
        ("GET", f"/v1/plans/{SECRET}/loads", {}, 404, "not_found"),
        ("GET", f"/v1/problems/{SECRET}", {}, 404, "not_found"),
        ("GET", "/v1/plans/", {}, 404, "not_found"),
        ("DELETE", "/v1/plans", {}, 405, "method_not_allowed"),
        ("POST", "/v1/rules", {}, 405, "method_not_allowed"),
        ("GET", "/v1/plans", {"headers": {"Accept": "image/png"}}, 406, "not_acceptable"),
        (
            "GET",
            "/v1/rules",
            {"headers": {"Accept": "application/json;q=0"}},
            406,
            "not_acceptable",
        ),
        (
            "GET",
            "/v1/plans/plan_" + "0" * 26 + "/loads",
            {"headers": {"Accept": "text/html"}},
            406,
            "not_acceptable",
        ),
        (
            "POST",
            "/v1/plans",
            {"content": b"{}", "headers": {"Content-Type": "text/plain"}},
            415,
            "unsupported_media_type",
        ),
        ("POST", "/v1/plans", {"content": b"{}"}, 415, "unsupported_media_type"),
        (
            "POST",
            "/v1/plans",
            {"content": b"{}", "headers": {**JSON_TYPE, "Content-Encoding": "br"}},
            415,
            "unsupported_media_type",
        ),
        (
            "POST",
            "/v1/plans",
            {"content": b"{}", "headers": {"Content-Type": "application/json; charset=utf-16"}},
            415,
            "unsupported_media_type",
        ),
        ("POST", "/v1/plans", {"content": b"{", "headers": JSON_TYPE}, 400, "malformed_json"),
        ("POST", "/v1/plan-checks", {"content": b"{", "headers": JSON_TYPE}, 400, "malformed_json"),
        (
            "POST",
            "/v1/plans",
            {"content": b'{"a": 1, "a": 2}', "headers": JSON_TYPE},
            400,
            "unsafe_json",
        ),
        ("POST", "/v1/plans", {"json": {"faults": 1, "x": SECRET}}, 422, "invalid_request"),
        ("POST", "/v1/plan-checks", {"json": {"faults": 1}}, 422, "invalid_request"),
        ("GET", f"/v1/plans?limit={SECRET}", {}, 422, "invalid_request"),
        ("GET", f"/v1/plans?cursor={SECRET}", {}, 422, "invalid_request"),
        ("POST", "/v1/plans", {"json": {"order": "break_the_web"}}, 500, "internal_error"),
    ],
)
def test_each_refusal_has_its_status(shared_client, method, path, arguments, status, code):  # noqa: PLR0917
    """Each kind of wrong request is answered with the problem and the status of the table."""
    assert_problem(shared_client.request(method, path, **arguments), status, code)


def test_405_names_the_methods(shared_client):
    """A method that is not taken is answered with those that are (RFC 9110, 15.5.6)."""
    assert shared_client.delete("/v1/rules").headers["allow"] == "GET, HEAD, OPTIONS"
    assert shared_client.delete("/v1/plans").headers["allow"] == "GET, HEAD, OPTIONS, POST"


def test_a_body_over_the_limit_is_refused_by_its_declared_length(shared_client):
    """A Content-Length over the limit is answered with 413 before the body is read."""
    answer = shared_client.post(
        "/v1/plans", content=b" " * (2 * 1024 * 1024 + 1), headers=JSON_TYPE
    )
    assert_problem(answer, 413, "body_too_large")


def test_a_body_over_the_limit_is_refused_while_it_streams(shared_client):
    """A body that comes in chunks, without Content-Length, is refused once it is too large."""
    chunks = (b" " * 65536 for _ in range(64))
    answer = shared_client.post("/v1/plans", content=chunks, headers=JSON_TYPE)
    assert_problem(answer, 413, "body_too_large")


def test_a_body_at_the_limit_is_read(shared_client):
    """A body of exactly the limit is not refused for its size."""
    body = b'{"faults": 1}'.ljust(2 * 1024 * 1024)
    assert_problem(
        shared_client.post("/v1/plans", content=body, headers=JSON_TYPE), 422, "invalid_request"
    )


@pytest.mark.parametrize(("values", "pointer"), [(10, ""), (MOST_VALUES + 1, "/roster/0/pack_cap")])
def test_a_body_of_very_many_values_is_not_read_again(shared_client, values, pointer):
    """Pointers are held against the body that was sent, unless that would keep others waiting."""
    answer = shared_client.post("/v1/plans", json={"faults": 1, "more": [0] * values})
    assert [fault["pointer"] for fault in answer.json()["errors"]] == [pointer]


@pytest.mark.parametrize(("count", "listed", "left_out"), [(50, 50, None), (51, 50, 1)])
def test_all_faults_are_told_at_once_up_to_fifty(shared_client, count, listed, left_out):
    """Fifty faults are all listed; of more, fifty are listed and the rest is counted."""
    roster = [{"pack_cap": "20"}] * count
    body = {"faults": count, "roster": roster}
    document = shared_client.post("/v1/plans", json=body).json()
    assert len(document["errors"]) == listed
    assert document.get("errors_left_out") == left_out
    assert document["errors"][1] == {
        "pointer": "/roster/1/pack_cap",
        "code": "no_unit",
        "detail": "Write a unit.",
    }


def test_faults_of_parameters_are_told_together(shared_client):
    """Two wrong query parameters give two entries, each naming its parameter."""
    document = shared_client.get("/v1/plans?limit=0&cursor=x").json()
    assert {entry["parameter"] for entry in document["errors"]} == {"limit", "cursor"}


NEVER = "plan_" + "0" * 26


@pytest.mark.parametrize(
    ("address", "parameter", "code", "words"),
    [
        ("/v1/plans?limit=0", "limit", "too_small", "Write a number of at least 1."),
        ("/v1/plans?limit=101", "limit", "too_large", "Write a number of at most 100."),
        ("/v1/plans?limit=x", "limit", "not_whole", "Write a whole number."),
        ("/v1/plans?limit=1.5", "limit", "not_whole", "Write a whole number."),
        ("/v1/plans?cursor=x", "cursor", "bad_id", "plan_ and 26"),
        ("/v1/plans?state=dun", "state", "not_a_choice", "Write one of 'queued',"),
        ("/v1/plans?created_from=x", "created_from", "not_a_date_and_time", "2027-03-01T"),
        (f"/v1/plans?reference={'a' * 201}", "reference", "too_long", "at most 200 characters"),
        ("/v1/releases", "reference", "missing", "This is required and missing."),
        ("/v1/library?cursor=x", "cursor", "bad_id", "as the service gave it"),
        ("/v1/library/menus/-", "entry_id", "bad_id", "1 to 64 characters"),
        (f"/v1/plans/{NEVER}/pages?sheet=no", "sheet", "not_a_choice", "Write one of 'cover',"),
        (f"/v1/plans/{NEVER}/pages?paper=a0", "paper", "not_a_choice", "Write one of 'a4'"),
    ],
)
def test_a_fault_of_a_parameter_is_told_as_that_of_a_body(
    shared_client, address, parameter, code, words
):
    """The same code and the same words, and no regular expression."""
    answer = shared_client.get(address, headers={"Accept": "application/json, text/html;q=0.1"})
    assert answer.status_code == 422
    (fault,) = answer.json()["errors"]
    assert (fault["parameter"], fault["code"]) == (parameter, code)
    assert words in fault["detail"]
    assert not {"^", "[", "{"} & set(fault["detail"])


@pytest.mark.parametrize("key", ["", "with space", "x" * 256])
@pytest.mark.parametrize("path", ["/v1/plans", "/v1/comparisons"])
def test_a_key_that_cannot_be_one_is_told_what_it_may_be(shared_client, path, key):
    """In words."""
    answer = shared_client.post(path, json={}, headers={"Idempotency-Key": key})
    (fault,) = answer.json()["errors"]
    assert (fault["parameter"], fault["code"]) == ("Idempotency-Key", "bad_id")
    assert fault["detail"] == "Write 1 to 255 letters, digits and signs of ASCII, without spaces."


def test_what_has_no_words_yet_is_told_without_those_of_the_library():
    """A kind of error that nobody foresaw says where it is; all others are in the list of codes."""
    found = parameter_fault({"type": "complex_type", "loc": ("query", "x"), "msg": SECRET})
    assert (found.parameter, found.code) == ("x", "invalid")
    assert SECRET not in found.detail
    assert {code for code, _ in WORDS.values()} <= set(FAULTS)


def test_a_full_disk_is_503_and_nothing_is_accepted(client):
    """While the database cannot grow, a request is answered with 503; afterwards it works again."""
    database = client.app.state.wiring.store._engine

    def fill_up(connection, _record, _proxy):
        # SQLite says "database or disk is full" when it may not add a page.
        connection.execute("PRAGMA max_page_count = 1")

    def heal(connection, _record, _proxy):
        connection.execute("PRAGMA max_page_count = 1000000")

    event.listen(database, "checkout", fill_up)
    answer = client.post("/v1/plans", json={"padding": "x" * 50_000})
    assert_problem(answer, 503, "storage_unavailable")
    assert int(answer.headers["retry-after"]) > 0
    event.remove(database, "checkout", fill_up)
    event.listen(database, "checkout", heal)
    assert client.get("/v1/plans").json()["plans"] == []
    assert client.post("/v1/plans", json={"padding": "x" * 50_000}).status_code == 202


def test_every_code_is_described(shared_client):
    """The address under `type` describes each problem with the status of the table."""
    for code, kind in PROBLEMS.items():
        address = problem_details(ServiceProblem(code)).type
        assert shared_client.get(address).json()["status"] == kind.status


def test_a_long_pointer_is_cut():
    """The names in a pointer come from the caller, so no more than 300 characters are repeated."""
    fault = Fault("/" + "x" * 5000, "unknown_field", "Leave it out.")
    answer = problem_answer(ServiceProblem("invalid_request", faults=(fault,)))
    assert len(answer.body) < 1000


def test_half_a_surrogate_pair_does_not_break_the_answer():
    """A name that is no text in UTF-8 is told with a question mark in its place."""
    fault = Fault("/\ud800", "unknown_field", "Leave it out.")
    answer = problem_answer(ServiceProblem("invalid_request", faults=(fault,)))
    assert json.loads(answer.body)["errors"][0]["pointer"] == "/?"
