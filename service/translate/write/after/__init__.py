"""Planned against used, once an expedition is over, and rates for the next request."""
