"""Tests of packing one trip."""
