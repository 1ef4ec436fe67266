"""Tests of what people read of a plan."""
