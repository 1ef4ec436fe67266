"""Tests of planning the rest of an expedition."""
