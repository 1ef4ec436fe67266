"""Tests of the HTTP plumbing."""
