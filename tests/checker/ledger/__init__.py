"""Tests of the checker's ledger, each module alone."""
