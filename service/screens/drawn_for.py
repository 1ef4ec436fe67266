"""Pictures drawn twice, for a wide and a narrow screen, so that their text keeps its size."""

from __future__ import annotations

from dataclasses import replace

from service.pictures.svg import Picture

WIDE, NARROW = 560.0, 310.0
"""Widths of drawings, which are shown in pixels."""


def for_width(picture: Picture) -> Picture:
    """The picture with an id of its own among those of other widths."""
    return replace(picture, picture_id=f"{picture.picture_id}-{picture.width:.0f}")
