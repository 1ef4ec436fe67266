"""Tests of the checker's queries, each module alone."""
