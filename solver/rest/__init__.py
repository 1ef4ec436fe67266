"""The rest of an expedition, planned from what was counted on the way."""
