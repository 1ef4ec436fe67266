"""Tests of what a plan can stand."""
