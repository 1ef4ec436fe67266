"""Finds the public functions of the calculators, by walking the folder's modules."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable
from typing import Any

import solver.calculators


def public_functions() -> list[Callable[..., Any]]:
    """Every function without a leading underscore that a calculator module defines itself."""
    found: list[Callable[..., Any]] = []
    for module_info in pkgutil.iter_modules(solver.calculators.__path__):
        if module_info.name.startswith("_"):
            continue
        module = importlib.import_module(f"solver.calculators.{module_info.name}")
        for name, member in sorted(vars(module).items()):
            # A cached function is an object around a function; unwrap shows the function.
            function = inspect.unwrap(member) if callable(member) else member
            is_own = getattr(function, "__module__", "") == module.__name__
            if inspect.isfunction(function) and is_own and not name.startswith("_"):
                found.append(function)
    return found
