"""The goals after the peak, in their order."""
