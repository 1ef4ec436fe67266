"""Tests of drafts and of their way to plans and back."""
