"""Every way in which the service refuses or fails, as one table, and the exceptions that carry it.

Errors leave the service as problem details (RFC 9457). A problem has a stable code, and the code
alone decides the HTTP status. An answer repeats nothing that a caller sent, except the names of a
file, its sheet and its headers, shortened. Without these nobody finds a cell.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

QUEUE_FULL_AGAIN_SECONDS = 30
"""When to come again after a full queue [s]."""


@dataclass(frozen=True, slots=True)
class FilePlace:
    """A place in a file: its name, the sheet, the row from 1, the column's letters, the header."""

    file: str
    sheet: str | None = None
    row: int | None = None
    column: str | None = None
    header: str | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a request: where (JSON Pointer, RFC 6901), a stable code, what to do."""

    pointer: str
    code: str
    detail: str
    parameter: str | None = None
    """Name of the query, path or header parameter at fault; `pointer` is then empty."""
    place: FilePlace | None = None
    """Where in a file that was sent; `pointer` is then empty."""


class RequestFaults(Exception):  # noqa: N818 - named by what it carries
    """A request that was understood as JSON but breaks the rules; carries every fault at once."""

    def __init__(self, faults: tuple[Fault, ...], *, left_out: int = 0) -> None:
        super().__init__(f"{len(faults) + left_out} faults in the request")
        self.faults = faults
        self.left_out = left_out
        """How many more faults were found."""


@dataclass(frozen=True, slots=True)
class ProblemKind:
    """The HTTP status of a problem, its fixed title, and what the caller can do about it."""

    status: int
    title: str
    advice: str


PROBLEMS: Mapping[str, ProblemKind] = MappingProxyType(
    {
        "malformed_json": ProblemKind(
            400,
            "The body is not JSON.",
            "Send one JSON document (RFC 8259) in UTF-8.",
        ),
        "unsafe_json": ProblemKind(
            400,
            "The body is JSON that different programs read differently.",
            "Write each name in an object once, keep numbers in range and keep nesting shallow.",
        ),
        "malformed_request": ProblemKind(
            400, "The request cannot be read.", "Send a well-formed HTTP/1.1 request."
        ),
        "key_needed": ProblemKind(
            401,
            "The service asks for a key.",
            "Send the header Authorization: Bearer with a key that is in use.",
        ),
        "scope_needed": ProblemKind(
            403,
            "The key does not allow this.",
            "Use a key with the scope that is named in the detail.",
        ),
        "not_found": ProblemKind(
            404, "There is nothing at this address.", "Check the address and the id in it."
        ),
        "method_not_allowed": ProblemKind(
            405,
            "This address does not accept this method.",
            "Use one of the methods in the Allow header.",
        ),
        "not_acceptable": ProblemKind(
            406,
            "None of the requested media types is available here.",
            "Ask for one of the media types named in the detail, or leave out the Accept header.",
        ),
        "body_too_slow": ProblemKind(
            408, "The body took too long to arrive.", "Send the body without pauses."
        ),
        "headers_too_slow": ProblemKind(
            408,
            "The request took too long to arrive.",
            "Send the first line and all headers at once, and then the whole body.",
        ),
        "no_result_yet": ProblemKind(
            409,
            "The plan has no result yet.",
            "Read the plan until its state is done. Then ask again.",
        ),
        "plan_cancelled": ProblemKind(
            409,
            "The plan was cancelled and has no result.",
            "Send the request again if you need a plan.",
        ),
        "plan_is_final": ProblemKind(
            409,
            "The plan is final, so there is nothing to stop.",
            "Read the plan.",
        ),
        "plan_not_running": ProblemKind(
            409,
            "The plan is not running, so there is nothing to finish early.",
            "Read the plan. You can finish it early while its state is running.",
        ),
        "no_reference": ProblemKind(
            409,
            "The plan has no reference, and a release needs one.",
            "Send the request again with a reference, and release that plan.",
        ),
        "no_plan_in_outcome": ProblemKind(
            409,
            "The outcome has no plan to show.",
            "Read the plan itself. Its outcome says why there is no plan.",
        ),
        "made_on_the_way": ProblemKind(
            409,
            "This plan was made on the way, and the answer would begin with day 1.",
            "Ask about the first plan of its line, which GET /v1/plans/{plan_id}/history names.",
        ),
        "no_dates": ProblemKind(
            409,
            "The plan has no dates.",
            "Send the request again with a start_date.",
        ),
        "changed_since": ProblemKind(
            412,
            "This has changed since you read it.",
            "Read it again. Then decide, and send the new ETag in If-Match.",
        ),
        "body_too_large": ProblemKind(
            413, "The body is too large.", "Keep the body below the size given at /v1/limits."
        ),
        "unsupported_media_type": ProblemKind(
            415,
            "The media type of the body is not accepted here.",
            "Send the header Content-Type: application/json, and use no encoding or gzip.",
        ),
        "file_too_costly": ProblemKind(
            422,
            "The file takes too much time or memory to read.",
            "Send a smaller file: fewer rows, or a thinner track.",
        ),
        "invalid_request": ProblemKind(
            422,
            "The request has the faults listed under errors.",
            "Correct every fault under errors and send the request again.",
        ),
        "too_much_work": ProblemKind(
            422,
            "The request has no fault so far, but it is too large for the service.",
            "Send a smaller one: fewer days, trips, people, items, containers or reserves.",
        ),
        "headers_too_large": ProblemKind(
            431,
            "The first line and the headers are too large.",
            "Send at most 100 headers, and less than 32 kB in all.",
        ),
        "internal_error": ProblemKind(
            500,
            "The service failed. The fault is ours.",
            "Try again. Report the fault if it happens again.",
        ),
        "readers_busy": ProblemKind(
            503,
            "Other files are being read.",
            "Send the file again after the time in Retry-After.",
        ),
        "too_busy": ProblemKind(
            503,
            "The service is working on too many requests.",
            "Send the request again after the time in Retry-After.",
        ),
        "too_many_connections": ProblemKind(
            503,
            "The service has too many connections.",
            "Send the request again after the time in Retry-After, and reuse connections.",
        ),
        "host_unknown": ProblemKind(
            421,
            "The service does not answer for this host.",
            "Use an address that the service was started for. The setting HAULWRIGHT_HOSTS can "
            "name more.",
        ),
        "idempotency_key_reused": ProblemKind(
            422,
            "This Idempotency-Key came with another request before.",
            "Send each new request with a key of its own.",
        ),
        "queue_full": ProblemKind(
            503,
            "Too many plans are waiting to be solved, in all or of your own.",
            "Send the request again after the time in Retry-After.",
        ),
        "storage_unavailable": ProblemKind(
            503,
            "The service cannot write to its storage.",
            "The request was not accepted. Send it again after the time in Retry-After.",
        ),
        "starting": ProblemKind(
            503,
            "The service is starting.",
            "Send the request again after the time in Retry-After.",
        ),
        "shutting_down": ProblemKind(
            503,
            "The service is stopping.",
            "Send the request again after the time in Retry-After.",
        ),
    }
)


class ServiceProblem(Exception):  # noqa: N818 - named by what it becomes
    """A refusal or failure that becomes a problem details answer."""

    def __init__(
        self,
        code: str,
        detail: str | None = None,
        *,
        faults: tuple[Fault, ...] = (),
        left_out: int = 0,
        headers: Mapping[str, str] = MappingProxyType({}),
    ) -> None:
        super().__init__(code)
        self.code = code
        self.detail = detail
        self.faults = faults
        self.left_out = left_out
        self.headers = headers

    @property
    def kind(self) -> ProblemKind:
        """The row of the status table."""
        return PROBLEMS[self.code]
