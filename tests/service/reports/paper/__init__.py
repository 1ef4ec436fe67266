"""Tests of the paper."""
