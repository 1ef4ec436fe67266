"""Tests of the checker's rules, each module alone."""
