"""Tests of the printed pages."""
