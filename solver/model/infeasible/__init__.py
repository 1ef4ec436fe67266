"""Why there is no plan."""
