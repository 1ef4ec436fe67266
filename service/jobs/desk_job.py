"""What is worked out of a body while its caller waits, as a job for a process that may be killed.

A question is one letter and the body, in three kinds after a line about it; an answer is one letter
and a document.
"""

import json
from collections.abc import Callable
from dataclasses import astuple, dataclass
from typing import Any, Protocol, cast

from pydantic import BaseModel

from api_schema.library_entry import EntryKind
from service.errors import Fault, RequestFaults, ServiceProblem
from service.http.strict_json import read_json_object
from service.jobs.child_process import Job, JobLimits, Talk
from service.translate.read.library_entries import EntryToStore, read_entry
from service.written_document import WrittenDocument, written

ORDER, CHECK, REQUIREMENTS, REPLAN, RECHECK, ENTRY = b"o", b"c", b"r", b"p", b"k", b"e"
_DONE, _REFUSED = b"+", b"-"
MOST_FAULTS_SENT = 200


class PlanOrder(Protocol):
    """What is needed to know of a request in order."""

    @property
    def reference(self) -> str | None:
        """The caller's own reference."""

    @property
    def solve_seconds(self) -> float | None:
        """The time that its solve may take, None where the request does not say [s]."""


@dataclass(frozen=True, slots=True)
class Order:
    """A request in order, as a desk tells of it."""

    reference: str | None
    solve_seconds: float | None


@dataclass(frozen=True, slots=True)
class WrittenOrder(Order):
    """The same with its document, written at the desk so that nobody writes it again."""

    document: WrittenDocument


Document = dict[str, Any]


def desk_job(
    read_plan_request: Callable[[Document], PlanOrder],
    judge_plan: Callable[[Document], BaseModel],
    state_requirements: Callable[[Document, tuple[str, ...] | None], BaseModel],
    read_replan: Callable[[Document, Document], tuple[PlanOrder, Document]],
    judge_replan: Callable[[Document], BaseModel] | None = None,
) -> Job:
    """A job that answers questions with these functions; the last one may be left out.

    Entries of the library are read without any of them.
    """

    def answer(kind: bytes, body: bytes) -> bytes:
        if kind == ORDER:
            return _written_order(_read(body), read_plan_request)
        if kind == CHECK:
            return judge_plan(_read(body)).model_dump_json().encode()
        if kind == RECHECK and judge_replan is not None:
            return judge_replan(json.loads(body)).model_dump_json().encode()
        first, _, rest = body.partition(b"\n")
        if kind == ENTRY:
            return _written_entry(cast(EntryKind, first.decode()), rest)
        told = json.loads(first)
        if kind == REPLAN:
            order, document = read_replan(told, _read(rest))
            return json.dumps([order.reference, order.solve_seconds, document]).encode()
        chosen = None if told is None else tuple(told)
        return state_requirements(_read(rest), chosen).model_dump_json().encode()

    def job(question: bytes, _limits: JobLimits, _talk: Talk) -> bytes:
        try:
            return done(answer(question[:1], question[1:]))
        except RequestFaults as faulty:
            return refused("", None, faulty.faults)
        except ServiceProblem as problem:
            return refused(problem.code, problem.detail, problem.faults)

    return job


def _read(body: bytes) -> Document:
    """A body as a document, however many values it has: only this process stands still for it."""
    return read_json_object(body, most_values=None)


def done(document: bytes) -> bytes:
    """An answer with its document."""
    return _DONE + document


def refused(code: str, detail: str | None, faults: tuple[Fault, ...]) -> bytes:
    """A refusal with the problem's code, empty for faults of a request."""
    return _REFUSED + _written(code, detail, faults)


def read_answer(answer: bytes) -> bytes:
    """The document of an answer; a refusal is raised again as what it was at the desk."""
    if answer[:1] == _DONE:
        return answer[1:]
    code, detail, faults, left_out = json.loads(answer[1:])
    told = tuple(Fault(*fault) for fault in faults)
    if code:
        raise ServiceProblem(code, detail, faults=told)
    raise RequestFaults(told, left_out=left_out)


def read_order(document: bytes) -> WrittenOrder:
    """The order that a desk tells of: a line of JSON, then the text of the request."""
    first, _, text = document.partition(b"\n")
    reference, solve_seconds, digest = json.loads(first)
    return WrittenOrder(reference, solve_seconds, WrittenDocument(text, digest))


def read_replan_order(document: bytes) -> tuple[Order, Document]:
    """The order of a re-plan that a desk tells of, and the document to store."""
    reference, solve_seconds, stored = json.loads(document)
    return Order(reference, solve_seconds), stored


def _written_order(document: Document, read_plan_request: Callable[[Document], PlanOrder]) -> bytes:
    order = read_plan_request(document)
    stored = written(document)
    first = json.dumps([order.reference, order.solve_seconds, stored.digest])
    return first.encode() + b"\n" + stored.text


def read_entry_told(document: bytes) -> EntryToStore:
    """The entry of the library that a desk tells of: a line of JSON, then its content."""
    first, _, content = document.partition(b"\n")
    title, reference = json.loads(first)
    return EntryToStore(title, reference, content)


def _written_entry(kind: EntryKind, body: bytes) -> bytes:
    """An entry to store; it may have as many values as what is read where callers wait."""
    entry = read_entry(kind, read_json_object(body))
    return json.dumps([entry.title, entry.reference]).encode() + b"\n" + entry.content


def _written(code: str, detail: str | None, faults: tuple[Fault, ...]) -> bytes:
    """A refusal as JSON, with as many faults as are ever shown and the number of the others."""
    listed = [astuple(fault) for fault in faults[:MOST_FAULTS_SENT]]
    # Half a surrogate pair is escaped here, and shown as a question mark in the answer.
    return json.dumps([code, detail, listed, len(faults) - len(listed)]).encode()
