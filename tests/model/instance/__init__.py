"""Tests of the problem as the model sees it."""
