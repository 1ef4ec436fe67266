"""The solvers: relaxation, model in one piece, exact trips, arc flow."""
