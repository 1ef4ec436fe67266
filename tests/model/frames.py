"""Frames and drafts of the tiny worlds in which rules are tested."""

from __future__ import annotations

from collections.abc import Mapping

from solver.model.assignment.draft import Draft
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.instance.cargo import Cargo
from solver.problem import Item, Person, Problem
from tests.rules.worlds import EVERY_NIGHT, item, person, world

TWO = (person("m1"), person("m2"))
DAYS = "strip-c1 c1-strip"


def two_with(*gear: Item, people: tuple[Person, ...] = TWO, days: str = DAYS) -> Frame:
    """Two people who go up to c1 for a night with some gear."""
    return build_frame(world(days, people=people, gear=gear))


def box(name: str, mass_g: int, **more: object) -> Item:
    """A thing that is needed each night, and so rides up and down."""
    return item(name, EVERY_NIGHT, mass_g=mass_g, **more)


def index_of(frame: Frame, unit_id: str) -> int:
    """The cargo of a unit."""
    return cargo_of(frame, unit_id).index


def cargo_of(frame: Frame, unit_id: str) -> Cargo:
    """The first class of units of that id."""
    return next(cargo for cargo in frame.world.cargo if cargo.unit_id == unit_id)


def draft_of(frame: Frame, *trips: Mapping[str, str]) -> Draft:
    """A draft written as one mapping a trip, from carrier to units parted by spaces."""
    carried: dict[tuple[int, int, str], int] = {}
    for trip, loads in enumerate(trips):
        for carrier, units in loads.items():
            for word in units.split():
                unit_id, _, count = word.partition("*")
                carried[index_of(frame, unit_id), trip, carrier] = int(count or 1)
    return Draft(carried)


def problem_of(frame: Frame) -> Problem:
    """The problem that a frame was built from."""
    return frame.world.problem
