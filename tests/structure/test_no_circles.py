"""No module of ours imports itself through others, wherever in the file the import stands.

That Python loads a folder's `__init__` before any module in it counts for nothing here: only
imports that are written down do.
"""

from pathlib import Path

from tests.structure.sources import PACKAGES, Source, imports_of, our_sources, read_sources

KNOWN_CIRCLES: tuple[frozenset[str], ...] = ()
"""Circles that are still to be cut; a test asks that each of them is still there."""


def circles(sources: dict[str, Source]) -> list[frozenset[str]]:
    """Groups of modules that reach each other by imports, each group of two or more."""
    imports = {name: imports_of(source, sources) for name, source in sources.items()}
    reach = {name: _reach(name, imports) for name in imports}
    found = {
        frozenset({name, *(other for other in reach[name] if name in reach[other])})
        for name in imports
        if name in reach[name]
    }
    return sorted(found, key=sorted)


def _reach(start: str, imports: dict[str, set[str]]) -> set[str]:
    """Everything that a module imports through any number of others."""
    seen: set[str] = set()
    open_names = [start]
    while open_names:
        for name in imports[open_names.pop()] - seen:
            seen.add(name)
            open_names.append(name)
    return seen


def test_no_module_imports_itself_through_others():
    """The only circles of imports are those that are listed here as still to be cut."""
    found = circles(our_sources())
    new = [sorted(circle) for circle in found if circle not in KNOWN_CIRCLES]
    assert new == []


def test_each_listed_circle_is_still_there():
    """A circle that has been cut is taken off the list."""
    found = circles(our_sources())
    assert [sorted(circle) for circle in KNOWN_CIRCLES if circle not in found] == []


def _planted(folder: Path, **texts: str) -> dict[str, Source]:
    """A package of the given modules, two underscores in a name for a folder below."""
    package = folder / PACKAGES[0]
    for name, text in {"__init__": "", **texts}.items():
        file = package / f"{name}.py"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    return read_sources(folder, PACKAGES[0])


def test_a_circle_at_the_top_of_modules_is_seen(tmp_path):
    """Three modules that import each other in a ring are found, one outside the ring is not."""
    sources = _planted(
        tmp_path,
        one="from api_schema import two\n",
        two="import api_schema.three\n",
        three="from api_schema.one import x\n",
        other="from api_schema.one import x\n",
    )
    ring = frozenset({"api_schema.one", "api_schema.two", "api_schema.three"})
    assert circles(sources) == [ring]


def test_a_circle_through_a_function_is_seen(tmp_path):
    """An import inside a function closes a circle like any other."""
    sources = _planted(
        tmp_path,
        one="from api_schema.two import x\n",
        two="def late():\n    from api_schema import one\n    return one\n",
    )
    assert circles(sources) == [frozenset({"api_schema.one", "api_schema.two"})]


def test_a_circle_for_types_only_is_seen(tmp_path):
    """An import under TYPE_CHECKING closes a circle, too; so does a relative one."""
    sources = _planted(
        tmp_path,
        one="from .two import x\n",
        two="from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from .one import Y\n",
    )
    assert circles(sources) == [frozenset({"api_schema.one", "api_schema.two"})]


def test_modules_that_share_what_is_below_them_are_no_circle(tmp_path):
    """Two modules that import a third one, and each other in one direction, make none."""
    sources = _planted(
        tmp_path,
        one="from api_schema import two, three\n",
        two="from api_schema.three import x\n",
        three="x = 1\n",
    )
    assert circles(sources) == []
