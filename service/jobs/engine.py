"""What every engine offers to the application, whatever it stands on."""

from typing import Protocol

from sqlalchemy import Connection


class Engine(Protocol):
    """Has accepted plans solved: in this process, or by workers elsewhere.

    The row of a plan is the truth. An engine carries only its name, and whatever it forgets is
    found again in the table.
    """

    def enqueue(self, connection: Connection, plan_id: str) -> None:
        """Tell of a new plan, in the transaction that stores it."""

    def start(self) -> None:
        """Begin, first with what an earlier process left behind."""

    def wake(self) -> None:
        """Say that a plan was committed, so that an idle worker looks at once."""

    def begin_stop(self) -> None:
        """Hand running plans back to the queue."""

    def stop(self) -> None:
        """Hand running plans back and wait until that is done."""

    def is_stopping(self) -> bool:
        """Whether running plans have been or are being handed back."""

    def is_alive(self) -> bool:
        """Whether everything of the engine in this process still runs."""
