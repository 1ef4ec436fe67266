"""Tests of the report after an expedition."""
