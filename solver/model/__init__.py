"""The integer model of the plan; the only folder that imports the solver library."""
