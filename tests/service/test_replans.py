"""The plan after day 1 as the service answers it, and messages about it, solved for real.

The file is long because all its tests go on from one plan, which takes seconds to solve.
"""

import re

import pytest
from sqlalchemy import select, update

from api_schema.examples import SMALLEST_REQUEST
from api_schema.replan_answer import CountAnswer
from service.messages.text import Group, Message, read_message, write_message
from service.storage.database import reading, writing
from service.storage.plan_ids import code_of
from service.storage.tables import PlanRow

GUEST = {"person_id": "guest", "body_mass": "70 kg", "pack_cap": "22 kg"}

WAIT = {"Prefer": "wait=50"}
EVENINGS = [{"day": day, "moment": "evening"} for day in (2, 3)]


@pytest.fixture(scope="module")
def plan(caller):
    """The plan of the smallest request."""
    answer = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT)
    assert answer.status_code == 201, answer.text
    return answer.json()


@pytest.fixture(scope="module")
def unchanged(caller, plan):
    """Its re-plan in the evening of day 2, with nothing to tell."""
    answer = caller.post(
        f"/v1/plans/{plan['plan_id']}/replans",
        json={"at": {"day": 2, "moment": "evening"}},
        headers=WAIT,
    )
    assert answer.status_code == 201, answer.text
    return answer.json()


def _replan(caller, plan, **state):
    return caller.post(f"/v1/plans/{plan['plan_id']}/replans", json=state, headers=WAIT)


def test_with_nothing_to_tell_the_plan_stands(plan, unchanged):
    """Trips and stock come back as they were, and the answer says so."""
    assert unchanged["outcome"]["rest"]["unchanged"]
    assert unchanged["outcome"]["rest"]["of_plan"] == plan["plan_id"]
    for part in ("trips", "stock"):
        assert unchanged["outcome"]["plan"][part] == plan["outcome"]["plan"][part]
    assert "The plan stands as it is." in unchanged["outcome"]["rest"]["say"]
    assert plan["outcome"]["rest"] is None


def test_a_night_waited_moves_the_rest_on_and_is_told(caller, plan):
    """One night more at camp-1: a day more, the storm reserve there used, and why."""
    reserves = [{"reserve": kind, "reason": "we sit in the storm"} for kind in ("storm", "descent")]
    answer = _replan(
        caller,
        plan,
        at={"day": 2, "moment": "evening"},
        wait_nights=1,
        letting_go=reserves,
    )
    outcome = answer.json()["outcome"]
    assert outcome["outcome"] == "solved", outcome
    assert len(outcome["plan"]["days"]) == len(plan["outcome"]["plan"]["days"]) + 1
    assert outcome["plan"]["days"][2]["note"] == "waiting"
    assert outcome["rest"]["spent"][0]["place"] == "camp-1"
    again = caller.get(f"/v1/plans/{answer.json()['plan_id']}/request").json()
    assert len(again["calendar"]) == len(SMALLEST_REQUEST["calendar"]) + 1


@pytest.mark.parametrize(
    ("state", "pointer", "code"),
    [
        ({"at": {"day": 9, "moment": "evening"}}, "/at/day", "out_of_range"),
        ({"at": {"day": 1, "moment": "morning"}}, "/at/day", "out_of_range"),
        ({"at": {"day": 2, "moment": "noon"}}, "/at/moment", "not_a_choice"),
        (
            {"counts": [{"place": "camp-9", "unit_id": "tent", "count": 1}]},
            "/counts/0/place",
            "unknown_id",
        ),
        (
            {"counts": [{"place": "camp-1", "unit_id": "tents", "count": 1}]},
            "/counts/0/unit_id",
            "unknown_id",
        ),
        (
            {"counts": [{"place": "camp-1", "unit_id": "tent", "count": 5}]},
            "/counts/0",
            "more_than_there_is",
        ),
        ({"counts": [{"place": "camp-1", "unit_id": "tent"}]}, "/counts/0", "missing"),
        (
            {"lost": [{"place": "camp-2", "unit_id": "tent", "count": 1}]},
            "/lost/0/count",
            "more_than_there_is",
        ),
        ({"sleds_lost": ["sled-9"]}, "/sleds_lost/0", "unknown_id"),
        (
            {"people": [{"person_id": "nobody", "load_limit": "8 kg", "reason": "ill"}]},
            "/people/0/person_id",
            "unknown_id",
        ),
        ({"letting_go": [{"reason": "x"}]}, "/letting_go/0", "missing"),
        (
            {"letting_go": [{"rule_id": "units_conserved", "reason": "x"}]},
            "/letting_go/0/rule_id",
            "cannot_be_waived",
        ),
        (
            {"fuel_left": [{"cook_group": "nobody", "amount": "1 L"}]},
            "/fuel_left/0/cook_group",
            "unknown_id",
        ),
        ({"left": [{"person_id": "nobody"}]}, "/left/0/person_id", "unknown_id"),
        ({"left": [{"person_id": p} for p in ("lead", "second", "third")]}, "/left", "empty"),
        (
            {"left": [{"person_id": "third", "takes": [{"unit_id": "tent", "count": 2}]}]},
            "/left/0/takes/0/count",
            "more_than_there_is",
        ),
        (
            {"joins": [{"person": {**GUEST, "rope_team": "other"}, "place": "camp-1"}]},
            "/joins/0/person/rope_team",
            "unknown_id",
        ),
        (
            {"evacuation": {"person_id": "nobody", "how": "walks"}},
            "/evacuation/person_id",
            "unknown_id",
        ),
        (
            {"evacuation": {"person_id": "lead", "how": "flies", "companions": ["nobody"]}},
            "/evacuation/companions/0",
            "unknown_id",
        ),
        (
            {
                "evacuation": {
                    "person_id": "lead",
                    "how": "flies",
                    "companions": ["second", "third"],
                }
            },
            "/evacuation",
            "empty",
        ),
        (
            {"evacuation": {"person_id": "lead", "how": "flies"}, "wait_nights": 1},
            "/wait_nights",
            "not_together",
        ),
    ],
)
def test_contradictions_are_faults_with_their_place(caller, plan, state, pointer, code):
    """What cannot be is told where it stands, and nothing is planned."""
    answer = _replan(caller, plan, **{"at": {"day": 2, "moment": "evening"}, **state})
    assert answer.status_code == 422
    assert (pointer, code) in [(e["pointer"], e["code"]) for e in answer.json()["errors"]]


def test_the_line_of_a_plan_is_one_page(caller, plan, unchanged):
    """The first plan, then its re-plan with what was counted."""
    line = caller.get(f"/v1/plans/{unchanged['plan_id']}/history").json()
    assert [one["plan_id"] for one in line["plans"]] == [plan["plan_id"], unchanged["plan_id"]]
    assert line["plans"][0]["counted"] is None
    assert line["plans"][1]["counted"]["at"] == {"day": 2, "moment": "evening"}


def _told(caller, plan):
    """What supersedes a plan, by its history and by its sheets."""
    line = caller.get(f"/v1/plans/{plan['plan_id']}/history").json()
    sheet = caller.get(f"/v1/plans/{plan['plan_id']}/pages?sheet=cover").text
    on_sheet = re.search(r"SUPERSEDED by plan (plan_\w+)", sheet)
    return line["superseded_by"], None if on_sheet is None else on_sheet[1]


def test_a_corrected_count_supersedes_the_first_one_and_a_deleted_plan_breaks_no_line(caller, plan):
    """Two re-plans of one plan: the second holds. It is deleted, and the one that came of it holds.

    Without that one too, the first re-plan holds again.
    """
    first, second = (_replan(caller, plan, at=at).json() for at in EVENINGS)
    assert _told(caller, plan) == _told(caller, first) == (second["plan_id"],) * 2
    assert _told(caller, second) == (None, None)
    third = _replan(caller, second, at={"day": 4, "moment": "evening"}).json()
    assert caller.delete(f"/v1/plans/{second['plan_id']}").status_code == 204
    assert _told(caller, plan) == _told(caller, first) == (third["plan_id"],) * 2
    line = caller.get(f"/v1/plans/{third['plan_id']}/history").json()
    assert [one["plan_id"] for one in line["plans"]] == [plan["plan_id"], third["plan_id"]]
    assert line["plans"][1]["former_plan_id"] == plan["plan_id"]
    assert caller.delete(f"/v1/plans/{third['plan_id']}").status_code == 204
    assert _told(caller, first) == (None, None)
    assert _told(caller, plan) == (first["plan_id"],) * 2


def test_what_was_counted_makes_the_same_re_plan_again(caller, plan):
    """The request leads to the count; sent to the plan that was followed, it gives the same."""
    storm = {"reserve": "storm", "reason": "we sit in it"}
    state = {"at": {"day": 2, "moment": "evening"}, "wait_nights": 1, "letting_go": [storm]}
    first = _replan(caller, plan, **state).json()
    address = f"/v1/plans/{first['plan_id']}"
    request = caller.get(f"{address}/request")
    assert request.headers["link"] == f'<{address}/counted>; rel="related"'
    told = CountAnswer.model_validate(caller.get(f"{address}/counted").json())
    assert (told.plan_id, told.of_plan, told.counted) == (first["plan_id"], plan["plan_id"], state)
    again = caller.post(f"/v1/plans/{told.of_plan}/replans", json=told.counted, headers=WAIT).json()
    assert again["plan_id"] != first["plan_id"]
    assert caller.get(f"/v1/plans/{again['plan_id']}/request").content == request.content
    with reading(caller.app.state.wiring.store._engine) as connection:
        named = PlanRow.plan_id.in_([first["plan_id"], again["plan_id"]])
        digests = connection.execute(select(PlanRow.request_digest).where(named)).scalars().all()
    assert len(digests) == 2
    assert len(set(digests)) == 1


def test_a_plan_from_the_start_has_no_count(caller, plan):
    """Its request alone makes it again."""
    assert "link" not in caller.get(f"/v1/plans/{plan['plan_id']}/request").headers
    refused = caller.get(f"/v1/plans/{plan['plan_id']}/counted")
    assert (refused.status_code, refused.json()["code"]) == (404, "not_found")
    assert refused.json()["detail"] == "This plan was not made from a count."


def test_a_question_what_if_supersedes_nothing(caller, plan):
    """The plan that is followed still holds; the sheets of the other one say what it is."""
    followed = _replan(caller, plan, at={"day": 2, "moment": "evening"}).json()
    state = {"at": {"day": 3, "moment": "evening"}, "what_if": True}
    look = _replan(caller, followed, **state).json()
    assert look["outcome"]["outcome"] == "solved", look["outcome"]
    held = caller.get(f"/v1/plans/{followed['plan_id']}/history").json()
    assert held["superseded_by"] is None
    line = caller.get(f"/v1/plans/{look['plan_id']}/history").json()
    assert [one["what_if"] for one in line["plans"]] == [False, False, True]
    sheets = [
        caller.get(f"/v1/plans/{one['plan_id']}/pages?sheet=cover").text for one in (followed, look)
    ]
    assert ["SUPERSEDED" in sheet for sheet in sheets] == [False, False]
    assert ["WHAT IF: made only to be looked at." in sheet for sheet in sheets] == [False, True]
    screens = [
        caller.get(f"/v1/plans/{one['plan_id']}", headers={"Accept": "text/html"}).text
        for one in (followed, look)
    ]
    assert ["made only to be looked at" in screen for screen in screens] == [False, True]


def test_a_re_plan_is_checked_again_with_what_was_counted_and_let_go(caller, plan, unchanged):
    """A re-plan that was released months ago is still judged, by today's rules, and passes."""
    at = {"day": 2, "moment": "evening"}
    storm = {"reserve": "storm", "reason": "we sit in it"}
    waited = _replan(caller, plan, at=at, wait_nights=1, letting_go=[storm]).json()
    for one in (unchanged, waited):
        check = caller.get(f"/v1/plans/{one['plan_id']}/check")
        assert check.status_code == 200, check.text
        assert check.json()["check"]["findings"] == []
        assert check.json()["peak"]["load_fraction"] == one["outcome"]["peak"]["load_fraction"]


def test_answers_that_begin_with_day_1_are_refused_for_a_re_plan(caller, unchanged):
    """A stress test and the limits that bind would take the days that are over for days to come."""
    address = f"/v1/plans/{unchanged['plan_id']}"
    answers = [
        caller.get(f"{address}/limits-that-bind"),
        caller.post(f"{address}/stress-tests", json={"seconds": 2}),
    ]
    assert [answer.status_code for answer in answers] == [409, 409]
    assert {answer.json()["code"] for answer in answers} == {"made_on_the_way"}


def test_a_re_plan_can_be_re_planned(caller, unchanged):
    """From a re-plan the next one follows, and the line has three."""
    answer = _replan(caller, unchanged, at={"day": 4, "moment": "evening"})
    assert answer.status_code == 201
    assert answer.json()["outcome"]["outcome"] == "solved"
    line = caller.get(f"/v1/plans/{answer.json()['plan_id']}/history").json()
    assert len(line["plans"]) == 3


def test_what_was_lost_stays_lost_in_the_next_re_plan(caller, plan):
    """A bag lost on day 2 is in the ledger of the re-plan made on day 4, and of its answer."""
    bag = next(
        unit
        for entry in plan["outcome"]["plan"]["stock"]
        if (entry["day"], entry["place"]) == (2, "camp-1")
        for unit in entry["units"]
        if unit["unit_id"].startswith("all/")
    )
    gone = [{"place": "camp-1", "unit_id": bag["unit_id"]}]
    reserves = [{"reserve": kind, "reason": "we use them"} for kind in ("storm", "descent")]
    first = _replan(
        caller, plan, at={"day": 2, "moment": "evening"}, lost=gone, letting_go=reserves
    ).json()
    assert first["outcome"]["outcome"] == "solved", first["outcome"]
    second = _replan(caller, first, at={"day": 4, "moment": "evening"}).json()["outcome"]
    assert second["outcome"] == "solved", second
    assert second["rest"]["unchanged"]
    assert [(one["day"], one["changes"]) for one in second["rest"]["settled"]] == [
        (2, [{"place": "camp-1", "unit_id": bag["unit_id"], "count": -1}]),
        (4, []),
    ]
    assert second["plan"]["stock"] == first["outcome"]["plan"]["stock"]


def test_somebody_is_fetched_and_the_others_go_on_or_are_told_why_not(caller, plan):
    """One of three flies out: two are too few on a glacier, and help and physician are named."""
    answer = _replan(
        caller,
        plan,
        at={"day": 4, "moment": "evening"},
        evacuation={"person_id": "third", "how": "flies"},
    )
    outcome = answer.json()["outcome"]
    assert outcome["outcome"] == "infeasible"
    found = outcome["rest"]["evacuation"]
    assert found["leaving"] == ["third"]
    assert found["outside"] == ["an aircraft, or a rescue team with a litter, at camp-2 for third"]
    assert any("ask a physician" in words for words in outcome["rest"]["say"])


def test_a_guest_walks_down_with_them_and_the_next_re_plan_knows(caller, plan):
    """Somebody joins for the way down; the answer has their loads, and so has the next count."""
    first = _replan(
        caller,
        plan,
        at={"day": 5, "moment": "evening"},
        joins=[
            {
                "person": GUEST,
                "place": "camp-2",
                "brings": [{"unit_id": "all/generic-high"}, {"unit_id": "shelter-bag"}],
            }
        ],
        letting_go=[
            {"reserve": "storm", "reason": "we share"},
            {"reserve": "descent", "reason": "we share"},
            {"rule_id": "shelter_survives_loss", "reason": "we share"},
        ],
    ).json()
    outcome = first["outcome"]
    assert outcome["outcome"] == "solved", outcome
    down = [trip for trip in outcome["plan"]["trips"] if trip["day"] == 6]
    assert {load["person_id"] for load in down[0]["loads"]} == {"lead", "second", "third", "guest"}
    again = _replan(caller, first, at={"day": 5, "moment": "evening"}).json()["outcome"]
    assert again["rest"]["unchanged"]
    assert again["rest"]["settled"][0]["joined"] == [{"person_id": "guest", "place": "camp-2"}]


def test_from_message_to_message(caller):
    """A state in the code comes in; an answer in the code goes out, for the same day."""
    made = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT).json()
    code = code_of(made["plan_id"])
    key = caller.get(f"/v1/plans/{made['plan_id']}/message-key").json()
    assert key["code"] == code
    place = next(one["number"] for one in key["places"] if one["names"] == "camp-1")
    text = write_message(
        Message(
            is_answer=False,
            plan_code=code,
            groups=(
                Group("when", {"day": 2, "moment": "E"}),
                Group("place", {"place": place}),
                Group("people", {"people": 3}),
            ),
        )
    )
    answer = caller.post("/v1/messages", json={"text": text.lower()}, headers=WAIT)
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert told["of_plan"] == made["plan_id"]
    assert told["read_as"][0] == "Counted on day 2, in the evening."
    back = read_message(told["text"])
    assert len(told["text"]) <= 140
    assert (back.is_answer, back.plan_code) == (True, code_of(told["plan_id"]))
    values = {group.name: group.values for group in back.groups}
    assert values["when"] == {"day": 2, "moment": "E"}
    assert values["place"] == {"place": place}
    assert values["plan"] == {"outcome": "S"}
    same = caller.get(f"/v1/plans/{told['plan_id']}/message").json()
    assert same["text"] == told["text"]


def test_a_message_that_comes_again_has_the_answer_that_it_had(caller):
    """Whoever hears no answer sends it again: nothing is begun twice, until a newer plan holds."""
    made = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT).json()
    text = _evening_of_day_2(made["plan_id"])
    first = caller.post("/v1/messages", json={"text": text}, headers=WAIT)
    assert (first.status_code, first.json()["done"]) == (200, True)
    again = caller.post("/v1/messages", json={"text": text.lower()}, headers=WAIT)
    assert (again.status_code, again.json()) == (200, first.json())
    of_both = caller.get(f"/v1/plans/{first.json()['plan_id']}/history").json()
    assert (len(of_both["plans"]), of_both["superseded_by"]) == (2, None)
    newer = _replan(
        caller, {"plan_id": first.json()["plan_id"]}, at={"day": 3, "moment": "evening"}
    )
    assert newer.json()["outcome_kind"] == "solved", newer.text
    late = caller.post("/v1/messages", json={"text": text}, headers=WAIT)
    assert (late.status_code, late.json()["code"]) == (404, "not_found")


def _evening_of_day_2(plan_id: str) -> str:
    """The message that all is as planned on that evening."""
    when = (Group("when", {"day": 2, "moment": "E"}),)
    return write_message(Message(is_answer=False, plan_code=code_of(plan_id), groups=when))


def test_a_message_that_comes_again_after_an_older_plan_was_released_is_refused(caller):
    """The released plan holds in place of the answer, and no second re-plan is made of it."""
    made = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT).json()
    text = _evening_of_day_2(made["plan_id"])
    first = caller.post("/v1/messages", json={"text": text}, headers=WAIT).json()
    released = caller.post(f"/v1/plans/{made['plan_id']}/release", json={"released_by": "desk"})
    assert released.status_code in (200, 201), released.text
    newest = caller.get("/v1/plans").json()["plans"][0]["plan_id"]
    again = caller.post("/v1/messages", json={"text": text}, headers=WAIT)
    assert (again.status_code, again.json()["code"]) == (404, "not_found")
    assert newest == first["plan_id"]
    assert caller.get("/v1/plans").json()["plans"][0]["plan_id"] == newest


def test_a_message_whose_re_plan_was_cancelled_is_planned_anew(caller):
    """Its key still names the old re-plan, which answers nothing."""
    made = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT).json()
    text = _evening_of_day_2(made["plan_id"])
    first = caller.post("/v1/messages", json={"text": text}, headers=WAIT).json()
    with writing(caller.app.state.wiring.store._engine) as connection:
        gone = update(PlanRow).where(PlanRow.plan_id == first["plan_id"])
        connection.execute(gone.values(state="cancelled", outcome_kind=None, outcome_document=None))
    again = caller.post("/v1/messages", json={"text": text}, headers=WAIT)
    assert again.status_code == 200, again.text
    assert again.json()["done"]
    assert again.json()["plan_id"] != first["plan_id"]


@pytest.mark.parametrize(
    ("text", "code"),
    [("HELLO BASE", "in_doubt"), ("K7Q4MR D06EA C03* XCE", "in_doubt")],
)
def test_a_garbled_message_is_refused(caller, plan, text, code):
    """Nothing is repaired by guessing."""
    answer = caller.post("/v1/messages", json={"text": text})
    assert answer.status_code == 422
    assert {error["code"] for error in answer.json()["errors"]} == {code}


def test_a_message_about_no_plan_or_an_old_one_is_refused(caller, plan, unchanged):
    """Unknown codes, and plans that another one has replaced, are not answered."""
    when = (Group("when", {"day": 2, "moment": "E"}),)
    for code in ("0000", code_of(plan["plan_id"])):
        text = write_message(Message(is_answer=False, plan_code=code, groups=when))
        answer = caller.post("/v1/messages", json={"text": text})
        assert (answer.status_code, answer.json()["code"]) == (404, "not_found")


def test_who_must_fly_is_answered_by_message(caller, plan):
    """The third of three is to be fetched: no plan keeps the rules for two, and help is needed."""
    groups = (
        Group("when", {"day": 2, "moment": "E"}),
        Group("hurt", {"person": 3, "how": "F"}),
    )
    fresh = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers=WAIT).json()
    text = write_message(
        Message(is_answer=False, plan_code=code_of(fresh["plan_id"]), groups=groups)
    )
    answer = caller.post("/v1/messages", json={"text": text}, headers=WAIT).json()
    assert (
        "third has to go down (flies). Call rescue services and a physician." in answer["read_as"]
    )
    said = {group.name: group.values for group in read_message(answer["text"]).groups}
    assert said["goes_down"] == {"people": 1, "alone": "N"}
    assert said["companion"] == {"person": 3}
    assert said["plan"] == {"outcome": "N"}
    assert plan["outcome_kind"] == "solved"


def test_calendars_are_chosen_again_and_one_is_re_planned(caller, plan):
    """From the highest camp the answer has a way home a day sooner, and a re-plan takes it."""
    state = {"at": {"day": 4, "moment": "evening"}}
    address = f"/v1/plans/{plan['plan_id']}/replans/calendars"
    answer = caller.post(address, json={"state": state, "days": 6, "seconds": 30})
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert (told["plan_id"], told["complete"]) == (plan["plan_id"], True)
    soonest = told["calendars"][0]
    assert soonest["days"] == 5
    again = _replan(caller, plan, **state, calendar=soonest["calendar"])
    assert again.status_code == 201, again.text
    outcome = again.json()["outcome"]
    assert len(outcome["plan"]["days"]) == 5
    assert outcome["peak"]["load_fraction"] == soonest["peak"]
    assert len(outcome["rest"]["changes"]) == soonest["changed_loads"]


def test_calendars_are_refused_with_the_place_in_the_body(caller, plan):
    """A day that the plan does not have is a fault within `state`; no plan is 404."""
    body = {"state": {"at": {"day": 9, "moment": "evening"}}, "days": 6}
    answer = caller.post(f"/v1/plans/{plan['plan_id']}/replans/calendars", json=body)
    assert answer.status_code == 422
    assert [one["pointer"] for one in answer.json()["errors"]] == ["/state/at/day"]
    answer = caller.post(f"/v1/plans/plan_{'0' * 26}/replans/calendars", json=body)
    assert answer.status_code == 404
