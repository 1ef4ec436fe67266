"""Tests of reading requests."""
