"""Tests of the files that go out."""
