"""Printed pages of a plan: one HTML file that any browser prints, for torchlight and gloves."""
