"""The table of events is complete, and says "yes" only where a test plays the event."""

import re
from importlib.resources import files

from tests.rest.events import EVENTS
from tests.rest.events_of_six import EVENTS_OF_SIX
from tests.rest.test_events import REFUSED, SOLVED

TEXT = (files("service") / "guides" / "events.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| (\d+) \| (.+?) \| (.+?) \| (yes|in part|no) \|$", TEXT, re.MULTILINE)


def test_every_event_has_its_row():
    """Twenty-nine events, in order."""
    assert [int(number) for number, *_ in ROWS] == list(range(1, 30))


def test_an_event_that_is_answered_is_played():
    """Each "yes" has a state, and a test that asserts what the answer says.

    The flight that is cancelled, event 19, has a request in place of a state.
    """
    answered = {f"{int(number):02}" for number, _, _, is_answered in ROWS if is_answered == "yes"}
    played = {name[:2] for name in EVENTS} & {*SOLVED, *REFUSED}
    played |= {name[:2] for name in EVENTS_OF_SIX}
    assert answered - played == {"19"}
    assert len(answered) == 29
