"""Pages for a browser at the addresses of plans: follow a solve, read a plan, list, compare."""
