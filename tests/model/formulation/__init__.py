"""Tests of the frame and of the rows on rides."""
