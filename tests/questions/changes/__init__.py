"""Tests of the changes that people make."""
