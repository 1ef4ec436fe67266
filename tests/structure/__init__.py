"""Tests of the code's own shape: who imports whom, how long files are, what has a test."""
