"""The queue of solves and the worker that takes them."""
