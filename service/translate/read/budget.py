"""How much work a request makes, counted before any of it is done.

The counts grow as the work does: the checker asks of each trip for each personal item of everybody
on it, and the requirements follow each reserve through every night.
"""

from collections import Counter
from dataclasses import dataclass

from service.errors import ServiceProblem
from service.translate.read.requests import ReadRequest

MOST_PACK_QUESTIONS = 150_000
"""For example 48 people with 12 personal items each on 240 trips of all."""
MOST_RESERVE_NIGHTS = 40_000
"""For example 13 cook groups with 50 reserves each over 60 nights."""


@dataclass(frozen=True, slots=True)
class Work:
    """Questions about packs, and nights of reserves [1]."""

    pack_questions: int
    reserve_nights: int


def work_of(read: ReadRequest) -> Work:
    """The work that a request makes."""
    items = Counter(item.owner_id for item in read.problem.gear if item.owner_id is not None)
    questions = sum(
        1 + items[person_id] for trip in read.timeline.trips for person_id in trip.person_ids
    )
    return Work(questions, len(read.problem.reserves) * len(read.timeline.nights))


def require_budget(read: ReadRequest) -> ReadRequest:
    """The request, if it makes no more work than anybody may ask for; else too_much_work."""
    work = work_of(read)
    if work.pack_questions > MOST_PACK_QUESTIONS:
        raise ServiceProblem(
            "too_much_work",
            f"The people's trips with their personal items are {work.pack_questions:,} in all; at "
            f"most {MOST_PACK_QUESTIONS:,} are worked out. Send fewer days, trips or items.",
        )
    if work.reserve_nights > MOST_RESERVE_NIGHTS:
        raise ServiceProblem(
            "too_much_work",
            f"The reserves of all cook groups over all nights are {work.reserve_nights:,}; at most "
            f"{MOST_RESERVE_NIGHTS:,} are worked out. Send fewer nights, cook groups or reserves.",
        )
    return read
