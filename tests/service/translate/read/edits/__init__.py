"""Tests of the edits of request documents."""
