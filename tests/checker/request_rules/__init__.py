"""Tests of the checker's request rules, each module alone."""
