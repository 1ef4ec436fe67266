"""Tests of the questions around a plan, in the same rooms as they are."""
