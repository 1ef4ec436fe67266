"""Tests of the pages for a browser."""
