"""Numbers that the code made itself, kept so that a change is seen."""
