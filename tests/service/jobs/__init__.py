"""Tests of solves in child processes."""
