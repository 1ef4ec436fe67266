"""Tests of the files that come in and go out."""
