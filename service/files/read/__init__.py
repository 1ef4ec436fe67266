"""Gear lists, rosters and routes from the files that people already have."""
