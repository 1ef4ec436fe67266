"""The screens say what the stored plan says, safely, and let only their own script run.

The file is long because all its tests show the same few stored plans.
"""

import base64
import copy
import datetime as dt
import hashlib
import json
import re
from dataclasses import replace
from html import unescape

import pytest

from api_schema.calendars_answer import CalendarsAnswer
from api_schema.choice import ChosenVariantAnswer
from api_schema.plan_resource import PLAN_ID_PATTERN, PlanListAnswer, PlanSummaryAnswer
from api_schema.problem_details import ProblemDetails
from service.pages.facts import PlanFacts, Writer, named
from service.pictures.peaks import peaks_picture
from service.reports.differences import ComparedPlan, difference_of
from service.routes.screen_answers import problem_page
from service.screens.calendars_screen import calendars_screen
from service.screens.changed_loads import change_lines
from service.screens.comparison_screen import comparison_screen
from service.screens.difference_screen import difference_screen
from service.screens.drawn_for import NARROW, WIDE, for_width
from service.screens.frame import screen
from service.screens.links import links_of
from service.screens.load_grid import load_grid
from service.screens.plan_list import plan_list_screen
from service.screens.plan_screen import PlanSeen, plan_screen
from service.screens.refusal import NO_KEY_IN_A_BROWSER, refusal_screen
from service.screens.skyline import skyline
from service.screens.solved import solved_part
from service.screens.unsolved import unsolved_part
from service.screens.words import moment_words, percent, solve_words, state_words
from tests.service.one_night_out import REQUEST
from tests.service.reports.test_comparisons import OUTCOME, answer

PLAN_ID, OTHER = "plan_" + "0" * 26, "plan_" + "1" * 26
NO_TIMES = {"start": None, "turn_round": None}
AT = dt.datetime(2027, 5, 1, 12, 0, tzinfo=dt.UTC)


def summary(**facts) -> PlanSummaryAnswer:
    """A solved plan of the list, or what else is said."""
    told = {
        "plan_id": PLAN_ID,
        "reference": "trip 1",
        "state": "done",
        "outcome_kind": "solved",
        "created_at": AT,
        "started_at": AT,
        "finished_at": AT + dt.timedelta(seconds=7),
        "attempt": 1,
        "wire_version": None,
        "rules_version": None,
    }
    return PlanSummaryAnswer(**(told | facts))


def seen(**facts) -> PlanSeen:
    """A solved plan as stored, or what else is said."""
    told = {
        "summary": summary(),
        "request": REQUEST,
        "progress": None,
        "outcome": OUTCOME,
        "former": (),
        "superseded_by": None,
    }
    return PlanSeen(**(told | facts))


def shown(**facts) -> str:
    """The page of a plan."""
    return plan_screen(seen(**facts), can_print=False).html.decode()


LIVE = {"summary": summary(state="running", outcome_kind=None, finished_at=None), "outcome": None}
FACTS = PlanFacts(PLAN_ID, 1, "today", OUTCOME, REQUEST, Writer("metric"))


def digest(html: str, tag: str) -> str:
    """The digest of what stands in the one element of that name."""
    (inside,) = re.findall(f"<{tag}>(.*?)</{tag}>", html, re.DOTALL)
    return "sha256-" + base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()


def test_the_policy_names_the_style_and_the_script_by_what_they_are():
    """The policy has the hashes of style and script; nothing comes from outside."""
    made = plan_screen(seen(**LIVE), can_print=False)
    html = made.html.decode()
    assert f"style-src '{digest(html, 'style')}'" in made.policy
    assert f"script-src '{digest(html, 'script')}'" in made.policy
    assert "unsafe" not in made.policy
    assert re.findall(r'(?:src|href)="(?!/|#|\?)', html) == []
    assert not re.search(r"\son\w+=|\sstyle=", html)


def test_a_page_that_follows_nothing_has_no_script():
    """Only a plan that is not final has a script, which may call the service."""
    final = plan_screen(seen(), can_print=False)
    assert b"<script" not in final.html
    assert "script-src" not in final.policy
    assert "connect-src" not in final.policy


def test_what_a_request_says_is_never_markup():
    """Title and reference are text on the pages of plan, list and comparison."""
    bad = 'x <img src=x onerror="a"> & co'
    html = shown(request=REQUEST | {"title": bad}, summary=summary(reference=bad))
    listed = plan_list_screen(
        PlanListAnswer(plans=[summary(reference=bad)], next_cursor=None),
        reference=bad,
        state=None,
        is_first=True,
    )
    compared = comparison_screen(answer().model_copy(update={"reference": bad}))
    for page in (html, listed.html.decode(), compared.html.decode()):
        assert "<img" not in page
        assert "&lt;img" in page
    with pytest.raises(Exception, match="title"):
        screen("refusal.html.j2")


def test_a_re_plan_shows_what_changes_by_day_and_person():
    """Each load that changes is a line with the names of things; another plan has no such table."""
    trip = OUTCOME["plan"]["trips"][0]
    load = next(load for load in trip["loads"] if load["pack"])
    unit = {"unit_id": load["pack"][0]["unit_id"], "count": 2}
    change = {
        "day": 1,
        "step": 1,
        "from": trip["from"],
        "to": trip["to"],
        "new": False,
        "person_id": load["person_id"],
        "more": [unit, {"unit_id": "gone", "count": 1}],
        "fewer": [],
    }
    rest = {"say": ["Next."], "changes": [change]}
    facts = replace(FACTS, outcome=OUTCOME | {"rest": rest})
    (line,) = change_lines(facts)
    assert (line.day, line.fewer) == (1, "–")
    assert line.person == FACTS.person(load["person_id"])
    assert line.more == f"{named(load['pack'][0] | {'count': 2})}, gone"
    assert line.more in unescape(shown(outcome=facts.outcome))
    assert list(change_lines(FACTS)) == []
    assert "What changes" not in shown()


def test_a_solved_plan_shows_its_peak_its_check_and_its_views():
    """Peak, bound and check are the outcome's; each view of the plan has its link."""
    html = shown()
    assert percent(OUTCOME["peak"]["load_fraction"]) in html
    assert "passed" in html
    for group in links_of(PLAN_ID, solved=True, can_print=False):
        for link in group.links:
            assert f'href="{link.address.replace("&", "&amp;")}"' in html
    assert 'id="cancel"' not in html


def test_pdf_is_offered_only_where_it_can_be_printed():
    """The link to PDF stands where the extra is installed, and nowhere else."""
    with_pdf, without = (
        str(links_of(PLAN_ID, solved=True, can_print=can)) for can in (True, False)
    )
    assert "format=pdf" in with_pdf
    assert "format=pdf" not in without


def test_a_re_plan_has_no_link_to_what_begins_with_day_1():
    """Stress tests and the limits that bind are refused for it, so nothing leads there."""
    words = [
        str(links_of(PLAN_ID, solved=True, can_print=True, from_day_1=f)) for f in (True, False)
    ]
    for refused in ("limits-that-bind", "stress"):
        assert [refused in one for one in words] == [True, False]
    assert "/purchases" in words[1]


def test_a_running_plan_can_be_finished_and_cancelled():
    """The page of a running plan has both buttons, a place for progress, and no views of a plan."""
    html = shown(**LIVE)
    assert 'id="finish"' in html
    assert 'id="cancel"' in html
    assert 'role="status"' in html
    assert "/pages" not in html
    waiting = shown(**LIVE | {"summary": summary(state="queued", outcome_kind=None)})
    assert 'id="finish" disabled' in waiting


def test_a_plan_that_cannot_be_says_why():
    """Each cause stands with its rule and what would help; a failure says whose fault it is."""
    remedy = {"text": "Raise the cap.", "is_decision": True}
    cause = {"message": "Too heavy.", "rule_id": "pack_cap_held", "more": [1], "remedies": [remedy]}
    outcome = {"outcome": "infeasible", "conflicts": [cause] * 25}
    html = shown(outcome=outcome, summary=summary(outcome_kind="infeasible"))
    assert "Raise the cap. (the leader decides)" in html
    assert 'href="/docs/rules#pack_cap_held"' in html
    assert unsolved_part(outcome).left_out == 5
    assert "may be one" in unsolved_part({"outcome": "no_plan_in_time"}).sentence
    assert "ours" in unsolved_part({"outcome": "failed", "detail": "x"}).sentence


def test_a_plan_made_only_to_be_looked_at_says_so():
    """Before it is solved and after, "what if" stands on it; that it is replaced says more."""
    mark = "What if: this plan was made only to be looked at."
    for facts in ({}, LIVE):
        assert mark in shown(what_if=True, **facts)
        assert mark not in shown(**facts)
    assert mark not in shown(what_if=True, superseded_by=OTHER)


def test_an_old_plan_points_to_the_one_that_holds():
    """A plan with a newer one says so, and a re-plan names what it was made on the way of."""
    html = shown(superseded_by=OTHER, former=(OTHER,))
    assert "Do not use this one" in html
    assert html.count(f'href="/v1/plans/{OTHER}"') == 2


def test_the_grid_has_the_largest_share_of_each_day():
    """Each cell is the largest load fraction of that person and day; one cell is the peak."""
    grid = load_grid(FACTS)
    shares: dict[tuple[str, int], float] = {}
    for person in FACTS.people:
        for trip, load in FACTS.loads_of(person):
            at = (FACTS.person(person), trip["day"])
            shares[at] = max(shares.get(at, 0), load["load_fraction"])
    cells = {
        (name, day): cell
        for name, row in grid.rows
        for day, cell in zip(grid.days, row, strict=True)
    }
    assert {at: cell.words for at, cell in cells.items() if cell.words} == {
        at: f"{100 * share:.0f}" for at, share in shares.items()
    }
    assert sum(cell.is_peak for cell in cells.values()) == 1
    assert all(cell.shade in range(5) for cell in cells.values() if cell.words)


def test_pictures_are_drawn_for_two_widths_with_ids_of_their_own():
    """No id stands twice on the page, and the narrow pictures fit a phone."""
    ids = re.findall(r'\sid="([^"]+)"', shown())
    assert len(ids) == len(set(ids))
    part = solved_part(FACTS)
    assert len(part.wide) == len(part.narrow) > 0
    assert {one.width for one in part.narrow} == {NARROW}
    assert for_width(part.wide[0]).picture_id.endswith(f"-{WIDE:.0f}")


def test_the_skyline_rises_with_the_elevations():
    """The highest place is the top of the polygon; a route without elevations has a line too."""
    points = [tuple(map(float, p.split(","))) for p in skyline([1000, 3000, 2000]).split()]
    assert min(points, key=lambda point: point[1])[0] == 500
    assert len(skyline([]).split()) == 4


def test_the_list_leads_to_each_plan_and_to_older_ones():
    """Rows link to plans; the next page keeps what was asked for; an empty list says so."""
    page = PlanListAnswer(plans=[summary()], next_cursor=PLAN_ID)
    html = plan_list_screen(page, reference="a&b", state="done", is_first=False).html.decode()
    assert f'href="/v1/plans/{PLAN_ID}"' in html
    assert f"/v1/plans?reference=a%26b&amp;state=done&amp;cursor={PLAN_ID}" in html
    assert 'aria-current="page">done<' in html
    none = PlanListAnswer(plans=[], next_cursor=None)
    assert (
        "no such plans"
        in plan_list_screen(none, reference=None, state=None, is_first=True).html.decode()
    )


def test_the_comparison_shows_figures_with_their_change_and_a_bar_for_each_peak():
    """Per cent for shares, the change in brackets, text escaped, and no row called best."""
    text = comparison_screen(answer()).html.decode()
    change = 100 * round(0.8 - OUTCOME["peak"]["load_fraction"], 4)
    assert f"80.00% ({change:+.2f})" in text
    assert "Too &lt;heavy&gt;." in text
    assert text.count("<rect") == 2 * 2
    assert "1 of 6 variants are not solved yet" in text
    assert "best" not in text


def test_a_comparison_without_any_plan_has_no_picture():
    """Where nothing is solved there is no bar to draw."""
    bare = answer().model_copy(update={"rows": answer().rows[2:], "done": True})
    assert b"<svg" not in comparison_screen(bare).html


def test_the_picture_of_peaks_says_what_is_lowest():
    """The finding names the lowest and the highest; equal peaks are said to be equal."""
    picture = peaks_picture([("base", 0.9), ("two sleds", 0.8)], width=NARROW)
    assert "80.0 % of a cap (two sleds)" in picture.finding
    assert "All variants" in peaks_picture([("a", 0.5), ("b", 0.5)], width=WIDE).finding
    long = peaks_picture([("n" * 200, 1.3)], width=NARROW).svg()
    assert "n…" in long


def test_a_problem_is_a_page_with_what_to_do():
    """A browser without a key is told plainly; other problems show their advice and faults."""
    told = {"type": "/x", "title": "A title", "status": 401, "detail": "Use a key."}
    page = refusal_screen(ProblemDetails(code="key_needed", **told)).html.decode()
    assert NO_KEY_IN_A_BROWSER in page
    fault = {"parameter": "limit", "code": "x", "detail": "Too much."}
    other = ProblemDetails(code="invalid_request", errors=[fault], **told)
    assert "limit: Too much." in refusal_screen(other).html.decode()
    assert problem_page(other).headers["content-security-policy"] == refusal_screen(other).policy


def test_states_and_times_are_put_into_words():
    """Outcomes and states read as words; a time that is not there is a dash."""
    assert state_words(summary(outcome_kind="infeasible")) == "no plan can exist"
    assert state_words(summary(state="queued", outcome_kind=None)) == "waits"
    assert (solve_words(summary()), solve_words(summary(finished_at=None))) == ("7 s", "–")
    assert (moment_words(AT), moment_words(None)) == ("2027-05-01 12:00 UTC", "–")
    assert (percent(0.915), percent(None), percent(0.9, 0)) == ("91.5 %", "–", "90 %")


BROWSER = {"Accept": "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"}


def test_an_address_gives_a_browser_a_page_and_everybody_else_json(client):
    """Plan and list are JSON unless text/html is preferred; `format` decides where it is given."""
    body = REQUEST | {"order": "given", "given": OUTCOME}
    plan_id = client.post("/v1/plans", json=body, headers={"Prefer": "wait=20"}).json()["plan_id"]
    for address in ("/v1/plans", f"/v1/plans/{plan_id}"):
        for headers, query, kind in (
            (BROWSER, "", "text/html"),
            ({"Accept": "*/*"}, "", "application/json"),
            ({"Accept": "application/json"}, "?format=html", "text/html"),
            (BROWSER, "?format=json", "application/json"),
        ):
            given = client.get(address + query, headers=headers)
            assert given.status_code == 200
            assert given.headers["content-type"].startswith(kind)
            assert "Accept" in given.headers["vary"]
    page = client.get(f"/v1/plans/{plan_id}", headers=BROWSER)
    assert "default-src 'none'" in page.headers["content-security-policy"]
    assert json.loads(client.get(f"/v1/plans/{plan_id}").content)["plan_id"] == plan_id


def test_a_refusal_is_a_page_for_a_browser_only(client):
    """What is not there is a page with the same status; everybody else gets problem details."""
    for address in (f"/v1/plans/{PLAN_ID}", "/nowhere", "/v1/plans?limit=0"):
        page = client.get(address, headers=BROWSER)
        data = client.get(address)
        assert page.status_code == data.status_code
        assert page.headers["content-type"].startswith("text/html")
        assert data.headers["content-type"] == "application/problem+json"
        assert data.json()["title"] in page.text.replace("&#39;", "'")


def test_the_comparison_says_what_was_chosen_and_whether_it_is_proven():
    """The variant that was asked for stands above the table, or that there is none so far."""
    chosen = ChosenVariantAnswer(
        name="later", goal="least", figure="flown_kg", value=200.0, proven=False
    )
    page = comparison_screen(answer().model_copy(update={"chosen": chosen})).html.decode()
    assert "the least flown kg within the limits. It is later, with 200." in page
    assert "not proven" in page
    low = chosen.model_copy(update={"figure": "peak", "value": 0.9453})
    page = comparison_screen(answer().model_copy(update={"chosen": low})).html.decode()
    assert "the least peak within the limits. It is later, with 94.53%" in page
    none = chosen.model_copy(update={"name": None, "value": None})
    nobody = comparison_screen(answer().model_copy(update={"chosen": none})).html.decode()
    assert "No variant so far keeps the limits." in nobody


def changed() -> dict:
    """The outcome with a second more of a thing, a lighter pack and a lower peak."""
    outcome = copy.deepcopy(OUTCOME)
    outcome["peak"]["load_fraction"] -= 0.01
    outcome["plan"]["taken_along"][0]["count"] += 1
    outcome["plan"]["trips"][0]["loads"][0]["total_kg"] -= 0.5
    return outcome


def test_the_page_of_a_difference_has_all_that_differs():
    """Each figure, thing, load and part of the request is a row, with values and change."""
    request = copy.deepcopy(REQUEST)
    request["roster"][0]["pack_cap"] = "19 kg"
    told = difference_of(
        ComparedPlan(PLAN_ID, REQUEST, OUTCOME), ComparedPlan(OTHER, request, changed())
    )
    html = difference_screen(told).html.decode()
    for title in ("Figures", "Taken along", "Loads", "Requests"):
        assert f">{title}</h2>" in html
    assert "-1.00" in html
    assert "/roster/solo/pack_cap" in html
    assert "-0.500" in html
    assert html.count("<tr>") == 4 + sum(
        map(len, (told.figures, told.taken, told.loads, told.input))
    )
    assert "Nothing differs" not in html


def test_a_difference_of_nothing_says_so_and_a_refusal_says_why():
    """Two plans that are the same differ in nothing; a plan that cannot be has its reason."""
    one = ComparedPlan(PLAN_ID, REQUEST, OUTCOME)
    html = difference_screen(difference_of(one, replace(one, plan_id=OTHER))).html.decode()
    assert "Nothing differs." in html
    cause = {"message": "Too <b>heavy</b>.", "rule_id": "pack_cap_held", "remedies": []}
    none = {"outcome": "infeasible", "conflicts": [cause], "plan": None}
    joined = copy.deepcopy(REQUEST)
    joined["roster"].append(joined["roster"][0] | {"person_id": "two"})
    told = difference_of(one, ComparedPlan(OTHER, joined, none))
    html = difference_screen(told).html.decode()
    assert "Too &lt;b&gt;heavy&lt;/b&gt;." in html
    assert "Only in the second plan: two." in html


def test_a_plan_page_leads_to_what_explains_the_plan():
    """Limits that bind, stress tests, the weakest and the reasons of containers have links."""
    outcome = copy.deepcopy(OUTCOME)
    outcome["plan"] |= {
        "weakest": {"say": "The mean load of solo is 70 %."},
        "containers": [{"say": "1 x can: not opened."}],
    }
    html = shown(outcome=outcome)
    for address in (
        f"/v1/plans/{PLAN_ID}/limits-that-bind?seconds=20",
        "/docs#/stress%20tests/create_stress_test",
        f"/v1/plans/{PLAN_ID}?format=html#weakest",
        f"/v1/plans/{PLAN_ID}?format=html#containers",
    ):
        assert f'href="{address}"' in html
    assert '<h2 id="weakest">' in html
    assert "1 x can: not opened." in html
    re_plan = shown(outcome=outcome, former=(OTHER,))
    assert f'pattern="{PLAN_ID_PATTERN[1:-1]}" value="{OTHER}"' in re_plan
    assert "limits-that-bind" not in re_plan


def test_the_page_of_calendars_has_a_picture_a_table_and_what_a_request_takes():
    """Each point of the curve is a row, a mark of the picture, and a calendar as JSON."""
    best = {
        "calendar": [["road", "camp"], {"places": ["camp"], "note": "rest"} | NO_TIMES],
        "days": 2,
        "peak": 0.95,
        "bound": 0.94,
        "heavy_person_trips": 3,
        "carries": {"road/camp": 2},
        "rests": {"camp": 1, "road": 0},
    }
    points = [
        {"days": days, "best": best | {"peak": peak}, "gap": 0.01, "calmer": None}
        for days, peak in ((2, 0.95), (4, 0.8))
    ]
    answer = {"reference": "trip 1", "curve": points, "chosen": best, "chosen_is_proven": False}
    counts = {"allowed": 9, "solved": 4, "left_open": 2, "assumptions": [], "cautions": []}
    html = calendars_screen(CalendarsAnswer.model_validate(answer | counts)).html.decode()
    assert html.count("<svg") == 2
    assert "with 4 days 80.0 %" in html
    assert "road to camp: 2" in html
    assert "2 were still open" in html
    assert "It is not proven" in html
    (first, _) = re.findall(r"<pre[^>]*>(.*?)</pre>", html, re.DOTALL)
    assert json.loads("{" + unescape(first) + "}")["calendar"] == best["calendar"]
    none = calendars_screen(CalendarsAnswer.model_validate(answer | counts | {"curve": []}))
    assert b"No calendar within the rules was found." in none.html
