"""The service's own rows: solves, their inputs and their results."""
