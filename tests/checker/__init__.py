"""Tests of the checker, each module alone."""
