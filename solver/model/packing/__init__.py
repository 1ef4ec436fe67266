"""A trip's loads as arrays, and how their peak is lowered."""
