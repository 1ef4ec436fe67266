"""Tests of the whole way from a problem to its outcome."""
