"""Tests of the rows that rules build; each rule's cases stand in tests/rules."""
