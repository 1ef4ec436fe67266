"""Calendars worth having: days against peak load, then against heavy person-trips."""

from solver.questions.calendars.search import find_calendars

__all__ = ["find_calendars"]
