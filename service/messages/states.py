"""From a message to a counted state, and from a re-plan to the message that answers it."""

from __future__ import annotations

from typing import Any

from api_schema.replan import ReplanRequest
from service.errors import Fault, RequestFaults
from service.messages.numbers import Numbers
from service.messages.text import Group, Message, Value

_MOMENTS = {"M": "morning", "E": "evening"}
_HOW = {"H": "hauled", "F": "flies"}
_LARGEST = 99


class _Reader:
    """One message on the way to a state."""

    def __init__(self, numbers: Numbers) -> None:
        self.numbers = numbers
        self.place: str | None = None
        self.cook_group = numbers.cook_groups[0] if numbers.cook_groups else ""
        self.state: dict[str, Any] = {"counts": [], "fuel_left": [], "people": [], "sleds_lost": []}
        self.faults: list[str] = []

    def named(self, what: str, names: tuple[str, ...], number: Value) -> str | None:
        """The name of a number; a fault where there is none."""
        if isinstance(number, int) and 1 <= number <= len(names):
            return names[number - 1]
        self.faults.append(f"There is no {what} {number}: they are numbered 1 to {len(names)}.")
        return None

    def take(self, group: Group) -> None:
        """Take down what one group says."""
        match group.name:
            case "when":
                self.state["at"] = {
                    "day": group.values["day"],
                    "moment": _MOMENTS[str(group.values["moment"])],
                }
            case "place":
                self.place = self.named("place", self.numbers.places, group.values["place"])
            case "cook_group":
                number = group.values["cook_group"]
                self.cook_group = self.named("cook group", self.numbers.cook_groups, number) or ""
            case "night_sets" | "fuel":
                self._stock(group)
            case "storm_nights":
                self.state["wait_nights"] = group.values["nights"]
            case "load_limit":
                who = self.named("person", self.numbers.people, group.values["person"])
                limit = f"{group.values['kg']} kg"
                self.state["people"].append(
                    {"person_id": who or "", "load_limit": limit, "reason": "said by message"}
                )
            case "sled_lost":
                sled = self.named("sled", self.numbers.sleds, group.values["sled"])
                self.state["sleds_lost"].append(sled or "")
            case "hurt":
                self._hurt(group)
            case _:
                # People and stoves at a place are for the reader's eye.
                pass

    def _stock(self, group: Group) -> None:
        if self.place is None:
            self.faults.append("Night sets and fuel need a place before them (group C).")
            return
        if group.name == "fuel":
            decilitres = int(group.values["decilitres"])
            self.state["fuel_left"].append(
                {
                    "cook_group": self.cook_group,
                    "place": self.place,
                    "amount": f"{decilitres / 10:g} L",
                }
            )
            return
        kinds = self.numbers.night_sets(self.cook_group)
        unit_id = self.named("kind of night set", kinds, group.values["kind"])
        if unit_id is not None:
            per_bag = self._per_bag(unit_id)
            bags = int(group.values["sets"]) // per_bag
            self.state["counts"].append({"place": self.place, "unit_id": unit_id, "count": bags})

    def _per_bag(self, unit_id: str) -> int:
        sets = self.numbers.problem.night_sets
        return next(one.sets_per_bag for one in sets if one.unit_id == unit_id)

    def _hurt(self, group: Group) -> None:
        who = self.named("person", self.numbers.people, group.values["person"])
        if group.values["how"] != "W":
            if "evacuation" in self.state:
                self.faults.append("A message can ask for the evacuation of one person only.")
            how = _HOW[str(group.values["how"])]
            self.state["evacuation"] = {"person_id": who or "", "how": how}
            return
        limited = {person["person_id"] for person in self.state["people"]}
        self.state.setdefault("_hurt", []).append((who, who in limited))


def state_of(message: Message, numbers: Numbers) -> dict[str, Any]:
    """The counted state that a message says; RequestFaults where it says something impossible."""
    reader = _Reader(numbers)
    for group in message.groups:
        reader.take(group)
    if "at" not in reader.state:
        reader.faults.append("The message does not say when it was counted (group D).")
    limited = {person["person_id"] for person in reader.state["people"]}
    for who, _ in reader.state.pop("_hurt", []):
        if who is not None and who not in limited:
            reader.faults.append(f"{who} is hurt and walks: say what they may carry (group L).")
    if reader.faults:
        raise RequestFaults(tuple(Fault("/text", "impossible", words) for words in reader.faults))
    return {name: value for name, value in reader.state.items() if value != []}


def in_words(state: ReplanRequest) -> list[str]:
    """What a state says, one sentence each, so that people can check it by eye."""
    said = [f"Counted on day {state.at.day}, in the {state.at.moment}."]
    said += [f"{one.place}: {one.count} of {one.unit_id}." for one in state.counts]
    said += [
        f"{one.place or 'in all'}: {one.amount} of fuel of {one.cook_group}."
        for one in state.fuel_left
    ]
    said += [f"{one.person_id} carries at most {one.load_limit}." for one in state.people]
    said += [f"Sled {sled_id} is lost." for sled_id in state.sleds_lost]
    if state.evacuation is not None:
        said.append(
            f"{state.evacuation.person_id} has to go down ({state.evacuation.how}). Call rescue "
            "services and a physician."
        )
    if state.wait_nights:
        said.append(f"{state.wait_nights} nights of storm are still expected.")
    return said


def _going_down(rest: dict[str, Any] | None, numbers: Numbers) -> list[Group]:
    """Who goes down, as far as the answer is about somebody who has to."""
    found = None if rest is None else rest.get("evacuation")
    if found is None:
        return []
    leaving = found["leaving"]
    alone = "Y" if found["possible"] else "N"
    return [
        Group("goes_down", {"people": len(leaving), "alone": alone}),
        *(
            Group("companion", {"person": numbers.people.index(person_id) + 1})
            for person_id in leaving[:_MOST_NAMED]
        ),
    ]


_MOST_NAMED = 8
"""Most people that one message names; the answer in words names all."""


def answer_message(
    plan_code: str,
    state: ReplanRequest,
    rest: dict[str, Any] | None,
    outcome_kind: str | None,
    numbers: Numbers,
) -> Message:
    """The answer to a state, from what the outcome of its re-plan says of the rest."""
    moment = next(letter for letter, name in _MOMENTS.items() if name == state.at.moment)
    groups = [Group("when", {"day": state.at.day, "moment": moment})]
    solved = outcome_kind == "solved" and rest is not None
    if solved and rest is not None and rest["waits"]:
        first = min(wait["day"] for wait in rest["waits"])
        now = [wait for wait in rest["waits"] if wait["day"] == first]
        place = numbers.places.index(now[0]["place"]) + 1
        nights = min(wait["within_plan"]["nights"] for wait in now)
        groups += [
            Group("place", {"place": place}),
            Group("nights_to_wait", {"nights": min(nights, _LARGEST)}),
        ]
        if rest["last_turn_day"] is not None:
            groups.append(Group("turn_day", {"day": min(rest["last_turn_day"], _LARGEST)}))
        summit = rest["last_summit_day"] or 0
        groups.append(Group("summit_day", {"day": min(summit, _LARGEST)}))
        move = rest["next_move"]
        if move is not None:
            groups += [
                Group("sleep_next", {"place": numbers.places.index(move["to"]) + 1}),
                Group("heaviest_load", {"kg": min(int(-(-move["load_kg"] // 1)), _LARGEST)}),
            ]
    groups += _going_down(rest, numbers)
    outcome = "X"
    if solved and rest is not None:
        outcome = "S" if rest["unchanged"] else "R"
    elif outcome_kind == "infeasible":
        outcome = "N"
    groups.append(Group("plan", {"outcome": outcome}))
    return Message(is_answer=True, plan_code=plan_code, groups=tuple(groups))
