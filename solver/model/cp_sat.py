"""CP-SAT, loaded without the library of tables that its Python interface brings along.

`cp_model` imports pandas for functions that make variables by the rows of a table. The model calls
none of them, and loading pandas takes two fifths of the time until a process can solve.
"""

from __future__ import annotations

import importlib
import sys
from types import ModuleType
from typing import TYPE_CHECKING

__all__ = ["cp_model"]

_NAME = "ortools.sat.python.cp_model"


def _without_tables() -> ModuleType:
    """The interface, with two empty types in the place of those that it knows of pandas.

    Pandas that is loaded already, or later by somebody else, is what it always is. A version of the
    interface that needs more of pandas gets all of it.
    """
    if _NAME in sys.modules or "pandas" in sys.modules:
        return importlib.import_module(_NAME)
    tables = ModuleType("pandas")
    for name in ("Index", "Series"):
        setattr(tables, name, type(name, (), {}))
    sys.modules["pandas"] = tables
    try:
        return importlib.import_module(_NAME)
    except (AttributeError, ImportError):
        sys.modules.pop(_NAME, None)
    finally:
        del sys.modules["pandas"]
    return importlib.import_module(_NAME)


if TYPE_CHECKING:
    from ortools.sat.python import cp_model
else:
    cp_model = _without_tables()
