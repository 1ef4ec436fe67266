"""Tests of the goals."""
