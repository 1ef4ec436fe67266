"""Tests of stress tests."""
