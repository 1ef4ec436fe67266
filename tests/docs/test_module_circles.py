"""No module of ours imports itself, be it by way of others, anywhere in the three packages."""

from graphlib import CycleError, TopologicalSorter

import grimp
import pytest

OURS = ("api_schema", "service", "solver")


def circle_of(imports: dict[str, set[str]]) -> list[str]:
    """One circle of modules, from a module back to itself; empty where there is none."""
    try:
        TopologicalSorter(imports).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


@pytest.fixture(scope="module")
def imports() -> dict[str, set[str]]:
    """What each module imports directly, imports inside functions included."""
    graph = grimp.build_graph(*OURS, cache_dir=None)
    return {name: graph.find_modules_directly_imported_by(name) for name in graph.modules}


def test_no_module_is_in_a_circle(imports):
    """There is an order of all modules in which each stands after those that it imports."""
    assert len(imports) > 300
    assert circle_of(imports) == []


def test_a_planted_circle_is_found(imports):
    """An import of the application by the OpenAPI room would close a circle, which is told."""
    planted = imports | {"service.http.openapi": {"service.app"}}
    assert "service.http.openapi" in circle_of(planted)
