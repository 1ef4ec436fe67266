"""Tests of flights."""
