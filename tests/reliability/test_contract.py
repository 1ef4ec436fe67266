"""The run against the published description asks every operation, and sees one that breaks."""

from pathlib import Path

import pytest

from service.app import create_app
from service.settings import Settings
from service.translation import TRANSLATION
from tests.reliability.contract import is_caught, operations
from tests.reliability.contract_hooks import BODIES


def test_every_operation_of_the_service_is_asked(tmp_path: Path):
    """The list has each operation of the description that the service serves, once."""
    served = create_app(Settings(database=tmp_path / "plans.sqlite3"), TRANSLATION).openapi()
    named = [method["operationId"] for path in served["paths"].values() for method in path.values()]
    assert sorted(operations()) == sorted(named)
    assert len(set(named)) == len(named) > 50


def test_bodies_in_order_are_those_of_operations():
    """What walks send is of operations that there are, among them all that store something."""
    assert set(BODIES) <= set(operations())
    assert {"create_plan", "create_replan", "create_stress_test", "store_roster"} <= set(BODIES)


@pytest.mark.slow
def test_an_operation_that_breaks_is_found_out(tmp_path: Path):
    """A service that breaks when it reads a plan does not pass; the command tries walks, too."""
    assert is_caught(tmp_path, "read_plan")
