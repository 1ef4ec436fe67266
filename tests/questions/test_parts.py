"""What one part of a question runs over, the next may not take."""

from solver.progress import Watch
from solver.questions.parts import Parts


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        """What it shows [s]."""
        return self.now


def started(seconds: float) -> tuple[Parts, Clock]:
    """The parts of a question with so much time, which begins now."""
    clock = Clock()
    watch = Watch(seconds, now=clock)
    watch.start()
    return Parts(watch), clock


def test_a_part_has_its_time_or_what_is_left():
    """Of ten seconds the first part has four, the next eight no more than six."""
    parts, clock = started(10.0)
    with parts.part(4.0) as time:
        clock.now += 4.0
    assert time.wall_seconds == 4.0
    with parts.part(8.0) as time:
        pass
    assert time.wall_seconds == 6.0


def test_what_parts_run_over_is_kept_back():
    """Parts that each take 1.5 s more than they have end no later than all the time together."""
    parts, clock = started(20.0)
    given = 0
    while parts.left() > 0:
        with parts.part(4.0) as time:
            clock.now += time.wall_seconds + 1.5
        given += 1
    assert given == 4
    assert parts.over == 1.5
    assert clock.now == 20.0


def test_a_wish_to_stop_ends_all_parts():
    """Nothing is left for a part, and a part that runs hears of it."""
    watch = Watch(10.0, now=Clock(), wish_to_stop=lambda: True)
    parts = Parts(watch)
    assert parts.left() == 0.0
    with parts.part(5.0) as time:
        assert time.is_over()
