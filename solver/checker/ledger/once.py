"""What is worked out of one ledger once and then shared by all rules that ask for it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Protocol, TypeVar, cast

Memory = dict[Callable[..., object], object]
"""By function, what it gave for the one object that the memory belongs to."""

Result = TypeVar("Result")


class Remembers(Protocol):
    """A frozen object that keeps what has been worked out of it."""

    @property
    def memory(self) -> Memory:
        """What has been worked out so far."""


Owner = TypeVar("Owner", bound=Remembers)


def once(work: Callable[[Owner], Result]) -> Callable[[Owner], Result]:
    """Let a function of one frozen object do its work once for each object.

    The results live as long as the object. A copy made with `replace` starts without any.
    """

    @wraps(work)
    def recalled(owner: Owner) -> Result:
        if work not in owner.memory:
            owner.memory[work] = work(owner)
        # Only this line writes under this function, so what is there is of its type.
        return cast("Result", owner.memory[work])

    return recalled
