"""Room for streams: what is refused while others have it, and that a place is free again."""

import contextlib

import pytest

from service.errors import ServiceProblem
from service.http.stream_room import StreamRoom


def refusal_of(room: StreamRoom, caller: str) -> ServiceProblem | None:
    """What a caller hears who asks for a place and gives it back; None where there is one."""
    try:
        with room.place(caller):
            return None
    except ServiceProblem as problem:
        return problem


def test_a_room_that_is_full_refuses_everybody():
    """The answer says when to come again; a place that is given back is free at once."""
    room = StreamRoom(streams=3, share=2)
    with room.place("a"), room.place("b"):
        with room.place("b"):
            refused = refusal_of(room, "c")
            assert (refused.code, refused.kind.status) == ("too_busy", 503)
            assert refused.headers == {"Retry-After": "5"}
        assert refusal_of(room, "c") is None


def test_one_caller_has_no_more_than_a_share():
    """Others find a place while one caller has all that it may have."""
    room = StreamRoom(streams=4, share=2)
    with room.place("a"), room.place("a"):
        assert refusal_of(room, "a").detail == "You have 2 streams open."
        assert refusal_of(room, "b") is None
    assert refusal_of(room, "a") is None


def test_a_place_is_free_also_after_a_fault():
    """Whoever is refused takes none, and whoever fails gives theirs back."""
    room = StreamRoom(streams=1, share=1)
    for _ in range(3):
        with contextlib.suppress(ZeroDivisionError), room.place("a"):
            assert room.opened() == 1
            assert refusal_of(room, "a").code == "too_busy"
            raise ZeroDivisionError
    assert room.opened() == 0


@pytest.mark.parametrize("caller", ["a", "b"])
def test_a_room_remembers_nobody_who_has_left(caller):
    """However many callers come and go, none of them stays in memory."""
    room = StreamRoom(streams=9, share=9)
    for number in range(100):
        assert refusal_of(room, f"{caller}{number}") is None
    assert not room._open
