"""The problem in frozen dataclasses, and the calendar read as trips and nights."""

from solver.problem.calendar import Calendar, Day, Visit
from solver.problem.conditions import (
    Conditions,
    FuelKind,
    Physique,
    Sex,
    SleepingRule,
    TravelMethod,
)
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
    "Conditions",
    "Container",
    "CookGroup",
    "Day",
    "Direction",
    "FuelKind",
    "Hazard",
    "Item",
    "Leg",
    "LegMode",
    "Need",
    "NeedKind",
    "Night",
    "NightSet",
    "Person",
    "Physique",
    "Place",
    "PlaceKind",
    "Problem",
    "Reserve",
    "ReserveKind",
    "Route",
    "RuleSettings",
    "Sex",
    "Sled",
    "SleepingRule",
    "Timeline",
    "TravelMethod",
    "Trip",
    "Visit",
    "Waste",
    "read_timeline",
]
