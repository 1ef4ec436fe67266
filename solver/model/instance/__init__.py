"""The problem as the model sees it: cargo, clock, placement of items, equipment."""
