"""Rounds needs up to whole things, forgiving the last digits of a float.

Private to this folder. Three times 0.1 is a little more than 0.3 in a float; without the
forgiveness, a need that is met exactly would buy one more package.
"""

from __future__ import annotations

import math


def whole_up(value: float) -> int:
    """Smallest whole number [count] that is not below the value."""
    return math.ceil(value - 1e-9 * max(1.0, abs(value)))
