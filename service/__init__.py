"""The web service around the solver: routes, jobs, storage and reports."""
