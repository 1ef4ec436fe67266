"""The problem in frozen dataclasses, and the calendar read as trips and nights."""

from solver.problem.calendar import Calendar, Day, Visit
from solver.problem.conditions import (
    Conditions,
    FuelKind,
    Physique,
    Season,
    Sex,
    SleepingRule,
    TravelMethod,
)
from solver.problem.flights import Flight, FlightDirection
from solver.problem.gear import Item, Need, NeedKind, Purpose
from solver.problem.history import Change, History, Standing
from solver.problem.pins import Pin
from solver.problem.presence import ALL_THE_TIME, Presence
from solver.problem.problem import Evacuation, Problem, RuleSettings
from solver.problem.roster import Caps, Person, Sled
from solver.problem.route import (
    CacheDanger,
    CacheSite,
    Direction,
    Hazard,
    Leg,
    LegMode,
    Place,
    PlaceKind,
    Route,
    SnowKind,
    TrailBreaking,
)
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
    "ALL_THE_TIME",
    "CacheDanger",
    "CacheSite",
    "Calendar",
    "Caps",
    "Change",
    "Conditions",
    "Container",
    "CookGroup",
    "Day",
    "Direction",
    "Evacuation",
    "Flight",
    "FlightDirection",
    "FuelKind",
    "Hazard",
    "History",
    "Item",
    "Leg",
    "LegMode",
    "Need",
    "NeedKind",
    "Night",
    "NightSet",
    "Person",
    "Physique",
    "Pin",
    "Place",
    "PlaceKind",
    "Presence",
    "Problem",
    "Purpose",
    "Reserve",
    "ReserveKind",
    "Route",
    "RuleSettings",
    "Season",
    "Sex",
    "Sled",
    "SleepingRule",
    "SnowKind",
    "Standing",
    "Timeline",
    "TrailBreaking",
    "TravelMethod",
    "Trip",
    "Visit",
    "Waste",
    "read_timeline",
]
