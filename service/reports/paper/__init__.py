"""Paper that says who has what: plain lists by name, read from an outcome document alone."""
