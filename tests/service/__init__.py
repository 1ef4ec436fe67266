"""Tests of the web service."""
