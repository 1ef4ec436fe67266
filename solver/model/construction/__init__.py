"""The greedy plan, and the rides that are added to it."""
