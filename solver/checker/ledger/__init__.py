"""The replay of a plan: course, loads, fuel, meals, units."""
