"""Tests of the translation between wire and solver."""
