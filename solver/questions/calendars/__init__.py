"""Calendars worth having: days against peak load, then against heavy person-trips."""
