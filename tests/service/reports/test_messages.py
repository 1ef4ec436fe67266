"""The page of the message code says every group, and its example can be read."""

import re

from service.messages.groups import ANSWER_GROUPS, ANSWER_HEAD, STATE_GROUPS, STATE_HEAD
from service.messages.text import read_message
from service.reports.messages import EXAMPLE, messages_page


def test_every_group_has_its_line():
    """Each letter with its meaning, states and answers apart."""
    text = messages_page()
    for kinds in ((STATE_HEAD, *STATE_GROUPS), (ANSWER_HEAD, *ANSWER_GROUPS)):
        for kind in kinds:
            assert f"<td><code>{kind.key}</code></td>" in text
            assert kind.meaning in text


def test_the_example_is_a_message():
    """What the page shows is read as what it means."""
    (shown,) = re.findall(r"Example: <code>(.*?)</code>", messages_page())
    assert read_message(shown) == EXAMPLE


def test_the_page_is_served_and_cautions_stand_on_it(shared_client):
    """At /docs/messages, with who decides and who is to be called."""
    answer = shared_client.get("/docs/messages")
    assert answer.status_code == 200
    for words in ("rescue services", "physician", "people on the spot decide"):
        assert words in answer.text
