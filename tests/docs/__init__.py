"""Tests of the documentation's claims and examples."""
