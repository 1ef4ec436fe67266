"""A pure library that turns a described trip into a checked load plan."""
