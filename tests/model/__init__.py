"""Tests of the model, in the same rooms as the model."""
