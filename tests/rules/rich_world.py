"""A small world with one of everything, and a plan of it by hand that breaks no rule.

Three people, one of them with a sled on the first leg, go up to c1, carry to c2 and back, move
to c2 and come down. Worked out on paper, fuel with a margin of 10 %:

- a night at c1 burns 3 x 100 mL x 1.1 = 330 mL, the night at c2 3 x 150 mL x 1.1 = 495 mL;
- can 1 is opened on night 1 (170 mL left, 119 g) and emptied at c1 on night 2; can 2 is opened
  there (340 mL left, 238 g) and emptied at c2 on night 3; can 3 is opened there (345 mL, 242 g);
- two nights at c1 leave 600 g of packaging in two sacks and 900 g of waste, the night at c2
  leaves 150 g and 450 g.
"""

from dataclasses import replace

from solver.plan import Plan
from solver.problem import (
    Container,
    CookGroup,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Problem,
    Reserve,
    ReserveKind,
    Sled,
    Waste,
)
from tests.rules.worlds import EVERY_NIGHT, item, person, plan_of, world

PEOPLE = ("m1", "m2", "m3")

GEAR = (
    item("tent", EVERY_NIGHT, mass_g=6_000, volume_ml=20_000),
    item("stove", EVERY_NIGHT, count=2, mass_g=500, apart_kind="stove"),
    item("rope", mass_g=3_000, volume_ml=8_000),
    item("pole", Need(NeedKind.AT_PLACE, up_to="c1"), outside=True),
    *(item("bag", EVERY_NIGHT, owner_id=who, mass_g=1_500, volume_ml=10_000) for who in PEOPLE),
    *(
        item("snowshoes", owner_id=who, mass_g=1_800, outside=True, in_use_on=(LegMode.SLED,))
        for who in PEOPLE
    ),
    *(
        item(
            "parka",
            Need(NeedKind.EVERY_TRIP, from_place="c1", may_go_ahead=True),
            owner_id=who,
            mass_g=900,
            volume_ml=6_000,
        )
        for who in PEOPLE
    ),
    item("boots", Need(NeedKind.WORN), owner_id="m1"),
)

WORLD: Problem = world(
    "strip-c1 c1-c2-c1 c1-c2 c2-c1-strip",
    people=(
        person("m1", sled_g=40_000, total_g=45_000, water_g=1_000, first_lunch_g=250),
        person("m2", water_g=1_000, first_lunch_g=250),
        person("m3", water_g=1_000, first_lunch_g=250),
    ),
    gear=GEAR,
    sleds=(Sled("s1", "m1", tare_g=4_000, mass_limit_g=40_000, volume_ml=90_000),),
    sled_leg_factors=(85, 100),
    groups=(
        CookGroup(
            "g1",
            (("strip", "low"), ("c1", "low"), ("c2", "high")),
            (Container("can", "g1", content_ml=500, tare_g=100, volume_ml=700),),
        ),
    ),
    night_sets=(
        NightSet("low", "g1", 1_000, 100, 200, 3_000, 100, sets_per_bag=3),
        NightSet("high", "g1", 800, 50, 150, 2_000, 150),
    ),
    reserves=(
        Reserve("c2", "g1", ReserveKind.STORM, 1, "high"),
        Reserve("c1", "g1", ReserveKind.DESCENT, 1, "low"),
    ),
    waste=Waste(waste_g_per_person_night=150, trash_sack_g=400),
    fuel_margin_percent=10,
)

MADE = {
    ("g1/can/open-1", 2): (219, 700),
    ("g1/can/open-2", 3): (338, 700),
    ("g1/can/open-3", 4): (342, 700),
    **{("g1/can/empty-1", day): (100, 700) for day in (3, 4)},
    ("g1/can/empty-2", 4): (100, 700),
    **{(f"trash/c1/1-{i}", day): (300, 1_500) for i in (1, 2) for day in (3, 4)},
    **{("human-waste/c1/1-1", day): (900, 1_800) for day in (3, 4)},
    ("trash/c2/1-1", 4): (150, 750),
    ("human-waste/c2/1-1", 4): (450, 900),
}


def _with_kit(**loads: str) -> dict[str, str]:
    """Loads with each person's snowshoes, parka and sleeping bag in front."""
    return {who: f"{who}/bag {who}/parka {who}/snowshoes {units}" for who, units in loads.items()}


def _light(**loads: str) -> dict[str, str]:
    """Loads of a carry, with each person's snowshoes and parka in front."""
    return {who: f"{who}/parka {who}/snowshoes {units}" for who, units in loads.items()}


TRIPS = (
    _with_kit(
        m1="stove g1/can | g1/low*3 tent g1/can*2",
        m2="rope stove g1/high*3 g1/can",
        m3="pole g1/high*3 g1/can",
    ),
    _light(m1="g1/high*3", m2="rope g1/can", m3="g1/can g1/high*2"),
    _light(m1="", m2="rope", m3=""),
    _with_kit(m1="tent", m2="rope stove g1/can/open-2", m3="stove g1/high"),
    _with_kit(
        m1="tent g1/can",
        m2="rope stove g1/can/open-3 g1/can/empty-2",
        m3="stove g1/high*3 trash/c2/1-1 human-waste/c2/1-1",
    ),
    _with_kit(
        m1="g1/can | tent g1/low human-waste/c1/1-1 human-waste/c2/1-1 g1/can",
        m2="rope stove g1/can/open-3 g1/can/empty-2 g1/can/empty-1",
        m3="stove g1/high*3 trash/c2/1-1 trash/c1/1-1 trash/c1/1-2 pole",
    ),
)

KIT = "tent stove*2 rope m1/bag m2/bag m3/bag m1/parka m2/parka m3/parka"
SHOES = "m1/snowshoes m2/snowshoes m3/snowshoes"
LEFT_AT_C1 = "pole g1/low g1/can g1/can/empty-1 trash/c1/1-1 trash/c1/1-2 human-waste/c1/1-1"

STOCK = {
    (0, "strip"): f"{KIT} {SHOES} pole g1/low*3 g1/high*6 g1/can*5",
    (1, "c1"): f"{KIT} {SHOES} pole g1/low*2 g1/high*6 g1/can*4 g1/can/open-1",
    (2, "c1"): f"{KIT} {SHOES} g1/high g1/can/open-2 {LEFT_AT_C1}",
    (2, "c2"): "g1/high*5 g1/can*2",
    (3, "c1"): LEFT_AT_C1,
    (3, "c2"): (
        f"{KIT} {SHOES} g1/high*3 g1/can g1/can/open-3 g1/can/empty-2 trash/c2/1-1 "
        "human-waste/c2/1-1"
    ),
    (4, "strip"): (
        f"{KIT} {SHOES} {LEFT_AT_C1} g1/high*3 g1/can g1/can/open-3 g1/can/empty-2 trash/c2/1-1 "
        "human-waste/c2/1-1"
    ),
}


def _made_by_day() -> dict[tuple[str, int], tuple[int, int]]:
    """What is made weighs the same on every later day, the end included."""
    last = {unit: weight for (unit, _), weight in MADE.items()}
    return MADE | {(unit, 5): weight for unit, weight in last.items()}


def _snowshoes_in_use(plan: Plan) -> Plan:
    """The plan with snowshoes that weigh nothing on the sled leg."""
    trips = []
    for trip in plan.trips:
        on_sled_leg = {trip.from_place, trip.to_place} == {"strip", "c1"}
        loads = tuple(
            replace(
                load,
                pack=tuple(
                    replace(s, mass_g=0, volume_ml=0)
                    if on_sled_leg and s.unit_id.endswith("snowshoes")
                    else s
                    for s in load.pack
                ),
            )
            for load in trip.loads
        )
        trips.append(replace(trip, loads=loads))
    return replace(plan, trips=tuple(trips))


PLAN: Plan = _snowshoes_in_use(
    plan_of(
        WORLD,
        *TRIPS,
        weights=_made_by_day(),
        lunches={2: 200, 3: 200, 4: 150},
        stock=STOCK,
    )
)
