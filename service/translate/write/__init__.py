"""From outcomes to the wire."""
