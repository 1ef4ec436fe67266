"""From the wire to the problem."""
