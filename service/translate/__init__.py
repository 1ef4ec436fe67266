"""The only place that knows both the wire and the solver: each turned into the other."""
