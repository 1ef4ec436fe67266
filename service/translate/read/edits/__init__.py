"""Edits of a request document before it is read; each part keeps where it was written."""
