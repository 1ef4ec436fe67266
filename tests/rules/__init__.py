"""Tests of each rule alone, asked of the model and of the checker."""
