"""Plans and their queue on the fresh database of either kind."""

import pytest
from sqlalchemy import Engine

from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore


@pytest.fixture
def store(database: Engine) -> PlanStore:
    """Plans on the fresh database; three may wait."""
    return PlanStore(database, queue_limit=3)


@pytest.fixture
def queue(database: Engine) -> PlanQueue:
    """The queue of the fresh database, with leases of a minute."""
    return PlanQueue(database, lease_ms=60_000)
