"""The web service: wiring, routes, storage and jobs around the solver library."""
