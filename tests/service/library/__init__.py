"""Tests of the library of generic gear."""
