"""Figures, purchases, labels and differences of plans small enough to add up by hand."""

import copy
import json

import pytest

from service.reports.bags import bags_of, bags_table
from service.reports.differences import ComparedPlan, difference_of, difference_table
from service.reports.figures import figures_of_outcome, kg_by_person_and_trip
from service.reports.input_differences import input_differences
from service.reports.purchases import bases_of, purchases_of, purchases_table
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from tests.service.one_night_out import REQUEST, SOLVED

READ = read_plan_request(REQUEST)
OUTCOME = json.loads(write_outcome(SOLVED, READ).model_dump_json())


def without_plan(outcome: str, **facts: object) -> dict:
    """An outcome of another kind."""
    return {"outcome": outcome} | facts


def test_the_figures_of_one_night_out_add_up():
    """One person, two trips, one set and one can; the means are those of the two loads."""
    told = figures_of_outcome(OUTCOME)
    shares = [trip["loads"][0]["load_fraction"] for trip in OUTCOME["plan"]["trips"]]
    assert (told.people, told.days, told.trips, told.sleds) == (1, 2, 2, 1)
    assert told.taken_kg == 1.5 + 3.0 + 1.0 + 0.85
    assert (told.food_kg, told.night_sets, told.food_bags) == (1.0, 1, 1)
    assert (told.fuel_l, told.fuel_containers) == (1.0, 1)
    assert told.mean_share == pytest.approx(sum(shares) / 2, abs=1e-4)
    assert (told.weakest_person, told.weakest_mean_share) == (None, None)
    assert (told.peak, told.peak_person) == (max(shares), "solo")
    assert told.reason is None


def test_heavy_is_over_nine_tenths_and_the_weakest_are_the_answers():
    """A load of exactly 90 % is not heavy, one over is; who is weakest is in the plan."""
    outcome = copy.deepcopy(OUTCOME)
    first, second = (trip["loads"] for trip in outcome["plan"]["trips"])
    first[0]["load_fraction"], second[0]["load_fraction"] = 0.9, 0.9001
    outcome["plan"]["weakest"] = {"person_ids": ["one", "two"], "mean_share": 0.5}
    told = figures_of_outcome(outcome)
    assert told.heavy_person_trips == 1
    assert (told.weakest_person, told.weakest_mean_share) == ("one, two", 0.5)


def test_an_outcome_without_a_plan_has_a_reason():
    """No figure is made up where there is no plan, and each kind of outcome says why."""
    conflicts = [{"message": "Too heavy."}, {"message": "No tent."}]
    infeasible = figures_of_outcome(without_plan("infeasible", conflicts=conflicts))
    assert infeasible.reason == "Too heavy. (and 1 more cause)"
    assert infeasible.peak is None
    assert "in the time" in str(figures_of_outcome(without_plan("no_plan_in_time")).reason)
    assert figures_of_outcome(without_plan("failed", detail="Ours.")).reason == "Ours."


def test_kilograms_are_told_by_person_and_trip():
    """Each load has its gross mass under person, day, step and ends."""
    first = OUTCOME["plan"]["trips"][0]["loads"][0]["total_kg"]
    assert kg_by_person_and_trip(OUTCOME["plan"])["solo", 1, 1, "road", "camp"] == first


def test_purchases_are_all_that_is_taken_food_first():
    """The rows weigh what is taken along, with night sets and fuel counted."""
    bought = purchases_of(READ, OUTCOME)
    assert [(p.kind, p.thing, p.count) for p in bought] == [
        ("food", "night set meal", 1),
        ("fuel", "can", 1),
        ("gear", "bag of solo", 1),
        ("gear", "glacier rope", 1),
    ]
    assert sum(p.kg for p in bought) == pytest.approx(6.35)
    assert (bought[0].night_sets, bought[1].fuel_ml, bought[1].size_ml) == (1, 1_000, 1_000)
    assert purchases_table(bought).as_rows()[1]["thing"] == "can"


def test_what_was_assumed_is_marked():
    """Given mass and volume are given; a missing volume, menu, kit or container is assumed."""
    assert set(bases_of(READ).values()) == {"given"}
    document = copy.deepcopy(REQUEST)
    del document["gear"][0]["volume"], document["roster"][0]["personal_kit"], document["menu"]
    del document["fuel"]["containers"]
    bases = bases_of(read_plan_request(document))
    assert bases["rope"] == "volume_assumed"
    assert bases["solo/sleeping-bag"] == "assumed"
    assert {basis for unit, basis in bases.items() if unit.startswith("all/")} == {"assumed"}


def test_fuel_that_is_worked_out_for_a_set_leaves_its_mass_given():
    """A set whose fuel is computed from the conditions still has the mass of the request."""
    document = copy.deepcopy(REQUEST)
    del document["menu"]["night_sets"][0]["fuel"]
    assert bases_of(read_plan_request(document))["all/meal"] == "given"


def test_every_bag_and_container_has_one_label():
    """Food, fuel and the personal kit are labelled with owner, day, place and where they wait."""
    food, fuel, own = bags_of(READ, OUTCOME)
    assert (food.label, food.first_day, food.used_at) == (
        "all | night set meal | day 1, camp",
        1,
        "camp",
    )
    assert (fuel.contents, fuel.first_day, str(fuel.first_date)) == (
        "fuel: 1 L in each",
        1,
        "2028-02-28",
    )
    assert (own.owner, own.contents, own.kg) == ("solo", "1 x bag", 1.5)
    assert bags_table([food]).as_rows()[0]["waits_at"] == ""


def with_more(counts: dict[str, int], at_camp: dict[str, int]) -> dict:
    """The outcome with more sets and cans. Some ride to the camp and back, the rest not."""
    outcome = copy.deepcopy(OUTCOME)
    plan = outcome["plan"]

    def add(units: list[dict], more: dict[str, int]) -> None:
        units.extend({"unit_id": u, "count": n, "each_kg": 1.0} for u, n in more.items() if n)

    for unit in plan["taken_along"]:
        unit["count"] += counts.get(unit["unit_id"], 0)
    for trip in plan["trips"]:
        add(trip["loads"][0]["pack"], at_camp)
    start, camp, back = plan["stock"]
    add(start["units"], counts)
    add(camp["units"], at_camp)
    add(back["units"], counts)
    stays = {unit_id: n - at_camp.get(unit_id, 0) for unit_id, n in counts.items()}
    plan["stock"].insert(1, {"day": 1, "place": "road", "units": []})
    add(plan["stock"][1]["units"], stays)
    return outcome


def test_what_no_night_uses_is_a_reserve_and_says_where_it_waits():
    """Of three more sets two go to the camp and one stays, and so does a full can."""
    outcome = with_more({"all/meal": 3, "all/can": 1}, {"all/meal": 2})
    told = [(b.kind, b.count, b.first_day, b.waits_at, b.label) for b in bags_of(READ, outcome)]
    assert told[:-1] == [
        ("food", 1, 1, [], "all | night set meal | day 1, camp"),
        ("food", 2, None, ["camp"], "all | night set meal | reserve, up to camp"),
        ("food", 1, None, [], "all | night set meal | reserve, stays at road"),
        ("fuel", 1, 1, [], "all | can | day 1, camp"),
        ("fuel", 1, None, [], "all | can | reserve, stays at road"),
    ]


def test_what_stays_at_the_start_waits_nowhere_else():
    """A set that is eaten at the road on the last night does not wait where the others do."""
    outcome = with_more({"all/meal": 2}, {"all/meal": 1})
    used = outcome["plan"]["used"]
    used.append(used[0] | {"day": 2, "place": "road", "night_sets": 1, "bags": 1})
    outcome["plan"]["stock"][-1]["units"][-1]["count"] = 1
    _, at_road, reserve = (b for b in bags_of(READ, outcome) if b.kind == "food")
    assert (at_road.used_at, at_road.waits_at) == ("road", [])
    assert [(w.place, w.from_day, w.to_day) for w in at_road.waits] == [("road", 0, 1)]
    assert reserve.waits_at == ["camp"]
    assert bags_table([reserve]).as_rows()[0]["waits"] == "road 0; camp 1; road 2"


def test_what_nobody_traces_is_a_plain_reserve():
    """Units that stand nowhere in the stock have a label, which names no place."""
    outcome = copy.deepcopy(OUTCOME)
    outcome["plan"]["taken_along"][2]["count"] += 1
    labels = [(b.label, b.waits) for b in bags_of(READ, outcome) if b.first_day is None]
    unit_id = outcome["plan"]["taken_along"][2]["unit_id"]
    assert [(unit_id.split("/")[0] + " | " in label, waits) for label, waits in labels] == [
        (True, [])
    ]


def test_kit_that_waits_without_its_owner_has_a_label_of_its_own():
    """A bag that lies at the camp while its owner sleeps at the road is not in the kit."""
    outcome = copy.deepcopy(OUTCOME)
    outcome["plan"]["days"][0]["places"] = {
        team: [*places, "road"] for team, places in outcome["plan"]["days"][0]["places"].items()
    }
    (own,) = (b for b in bags_of(READ, outcome) if b.kind == "personal")
    assert (own.label, own.contents) == ("solo | personal kit | waits at camp", "1 x bag")
    assert (own.waits_at, [w.to_day for w in own.waits]) == (["camp"], [1])


def test_requests_are_held_against_each_other_by_id():
    """A changed cap, a person who left and a new field are told at their place, not by number."""
    one = {"roster": [{"person_id": "a", "cap": "1 kg"}, {"person_id": "b", "cap": "2 kg"}], "x": 1}
    other = {"roster": [{"person_id": "b", "cap": "3 kg"}], "x": 1, "y": [1, 2]}
    told = [(d.where, d.kind, d.from_, d.to) for d in input_differences(one, other)]
    assert told == [
        ("/roster/a", "removed", '{"person_id": "a", "cap": "1 kg"}', None),
        ("/roster/b/cap", "changed", '"2 kg"', '"3 kg"'),
        ("/y", "added", None, "[1, 2]"),
    ]
    assert list(input_differences(one, copy.deepcopy(one))) == []


def test_lists_without_ids_are_one_part():
    """A calendar, and entries that share an id, are told as a whole."""
    assert len(list(input_differences({"c": [["a"], ["b"]]}, {"c": [["a"], ["c"]]}))) == 1
    twins = [{"item_id": "t", "n": 1}, {"item_id": "t", "n": 2}]
    assert len(list(input_differences({"g": twins}, {"g": twins[:1]}))) == 1


def test_a_plan_does_not_differ_from_itself():
    """Between a plan and itself there is nothing to tell."""
    plan = ComparedPlan("plan_" + "0" * 26, REQUEST, OUTCOME)
    told = difference_of(plan, plan)
    assert (told.input, told.figures, told.taken, told.loads) == ([], [], [], [])
    assert difference_table(told).rows == ()


def test_what_differs_is_told_in_input_figures_things_and_loads():
    """One more can, carried out, is told in all four, and the kilograms agree."""
    request, outcome = copy.deepcopy(REQUEST), copy.deepcopy(OUTCOME)
    request["fuel"]["containers"][0]["count"] = 2
    for unit in outcome["plan"]["taken_along"]:
        unit["count"] += unit["unit_id"] == "all/can"
    outcome["plan"]["trips"][0]["loads"][0]["total_kg"] += 0.85
    ids = ("plan_" + "0" * 26, "plan_" + "1" * 26)
    told = difference_of(
        ComparedPlan(ids[0], REQUEST, OUTCOME), ComparedPlan(ids[1], request, outcome)
    )
    assert [part.where for part in told.input] == ["/fuel/containers/can/count"]
    assert {f.figure: f.change for f in told.figures} == {
        "taken_kg": 0.85,
        "fuel_l": 1.0,
        "fuel_containers": 1.0,
    }
    assert [(t.thing, t.from_count, t.to_count, t.change_kg) for t in told.taken] == [
        ("can", 1, 2, 0.85)
    ]
    assert [(load.person_id, load.change_kg) for load in told.loads] == [("solo", 0.85)]
    assert len(difference_table(told).rows) == 6


def test_against_a_plan_that_is_none_only_the_figures_differ():
    """Things and loads are told between two solved plans only; the reason stands in the figures."""
    none = without_plan("infeasible", conflicts=[{"message": "Too heavy."}])
    ids = ("plan_" + "0" * 26, "plan_" + "1" * 26)
    told = difference_of(
        ComparedPlan(ids[0], REQUEST, OUTCOME), ComparedPlan(ids[1], REQUEST, none)
    )
    assert (told.taken, told.loads) == ([], [])
    assert told.figures_to.reason == "Too heavy."


@pytest.mark.parametrize(
    ("is_decision", "reason"),
    [(False, "No tent. What would help: take 1 more of tent and go later."), (True, "No tent.")],
)
def test_a_reason_says_what_would_help(is_decision, reason):
    """The cheapest change that was shown to help stands in the row; what a leader decides does not.

    Of two changes that only help together both are named.
    """
    changes = [{"text": "take 1 more of tent"}, {"text": "go later"}]
    diagnosis = {"changes_that_help": [{"changes": changes, "is_decision": is_decision}]}
    conflicts = [{"message": "No tent."}]
    outcome = without_plan("infeasible", conflicts=conflicts, diagnosis=diagnosis)
    assert figures_of_outcome(outcome).reason == reason
