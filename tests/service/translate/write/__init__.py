"""Tests of writing answers."""
