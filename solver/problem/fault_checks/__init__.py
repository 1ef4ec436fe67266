"""What can be wrong with a problem, a module for each of its parts."""
