"""The problem in frozen dataclasses, and the calendar read as trips and nights."""

from solver.problem.calendar import Calendar, Day, Visit
from solver.problem.gear import Item, Need, NeedKind
from solver.problem.problem import Problem, RuleSettings
from solver.problem.roster import Caps, Person, Sled
from solver.problem.route import Direction, Hazard, Leg, LegMode, Place, PlaceKind, Route
from solver.problem.supplies import (
    Container,
    CookGroup,
    NightSet,
    Reserve,
    ReserveKind,
    Waste,
)
from solver.problem.timeline import Night, Timeline, Trip, read_timeline

__all__ = [
    "Calendar",
    "Caps",
    "Container",
    "CookGroup",
    "Day",
    "Direction",
    "Hazard",
    "Item",
    "Leg",
    "LegMode",
    "Need",
    "NeedKind",
    "Night",
    "NightSet",
    "Person",
    "Place",
    "PlaceKind",
    "Problem",
    "Reserve",
    "ReserveKind",
    "Route",
    "RuleSettings",
    "Sled",
    "Timeline",
    "Trip",
    "Visit",
    "Waste",
    "read_timeline",
]
