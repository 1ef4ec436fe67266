"""What an answer says about a plan that was made on the way."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.evacuation_answer import EvacuationAnswer, PlacedUnitsAnswer
from api_schema.strict import Number, StrictModel


class NightsAnswer(StrictModel):
    """A number of nights, and what limits them."""

    nights: int
    limit: Literal["food", "fuel"]


class WaitAnswer(StrictModel):
    """How long a cook group can sit still after the night of a day."""

    day: int
    place: str
    cook_group: str
    people: int
    sets: int
    fuel_l: Number
    fuel_a_night_l: Number
    until_bare: NightsAnswer = Field(description="Until nothing is left at this place.")
    until_turn_round: NightsAnswer = Field(description="Until only the turn-round stock is left.")
    within_plan: NightsAnswer = Field(
        description="As long as the plan still has everything that it needs from this place, "
        "reserves included."
    )


class SpentAnswer(StrictModel):
    """Nights of a reserve that were used up or given up, and why."""

    place: str
    cook_group: str
    kind: str
    nights: int
    left: int
    why: str


class LetGoAnswer(StrictModel):
    """One thing that had to be let go, from the leader's order."""

    rule_id: str | None
    reserve: str | None
    place: str | None
    reason: str


class NightSetAnswer(StrictModel):
    """A future night on which a cook group eats another set than the one of its place."""

    day: int
    cook_group: str
    set_id: str


class UnitCountAnswer(StrictModel):
    """Units of one id."""

    unit_id: str
    count: int


class ChangedLoadAnswer(StrictModel):
    """What one person carries more or less of on a future trip than in the followed plan."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    step: int
    from_: str = Field(alias="from")
    to: str
    person_id: str
    more: list[UnitCountAnswer]
    fewer: list[UnitCountAnswer]
    new: bool = Field(description="Whether the followed plan had no such trip.")


class NextMoveAnswer(StrictModel):
    """The first trip to come, and who has the largest load of that day, in pack and sled."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    from_: str = Field(alias="from")
    to: str
    person_id: str
    load_kg: Number
    load_fraction: Number


class BurntAnswer(StrictModel):
    """Fuel that a cook group has burnt beyond the plan."""

    cook_group: str
    fuel_ml: int


class PersonAtAnswer(StrictModel):
    """A person and a place."""

    person_id: str
    place: str


class SettledAnswer(StrictModel):
    """One count, with everything that it found to differ from the plan."""

    day: int = Field(description="The last day whose trips are over.")
    after_night: bool = Field(description="Whether the night after that day is over, too.")
    changes: list[PlacedUnitsAnswer]
    burnt: list[BurntAnswer]
    left: list[PersonAtAnswer]
    joined: list[PersonAtAnswer]
    sleds_lost: list[str]


class RestAnswer(StrictModel):
    """The rest of an expedition that is under way. Read `say` first: it says what to do."""

    say: list[str]
    of_plan: str = Field(description="The plan that was followed up to the moment.")
    day: int
    moment: Literal["morning", "evening"]
    unchanged: bool = Field(description="Whether the followed plan still stands as it is.")
    waits: list[WaitAnswer]
    next_move: NextMoveAnswer | None
    last_summit_day: int | None
    last_turn_day: int | None
    spent: list[SpentAnswer]
    let_go: list[LetGoAnswer]
    night_sets: list[NightSetAnswer]
    changes: list[ChangedLoadAnswer]
    unexplained: list[str] = Field(
        description="What was counted but does not follow from the plan, one sentence each. Such "
        "things are taken off or added at the moment of the count."
    )
    settled: list[SettledAnswer] = Field(
        description="Every count of this line of plans, the oldest first. A re-plan of this plan "
        "begins with them."
    )
    evacuation: EvacuationAnswer | None
