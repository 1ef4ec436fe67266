"""Tests of the short messages."""
