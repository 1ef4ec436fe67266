"""The PostgreSQL server of the service's tests serves here, too."""

from tests.service.conftest import postgres

__all__ = ["postgres"]
