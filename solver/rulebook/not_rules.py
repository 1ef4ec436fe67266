"""What guides hold to and that is no rule of its own here, with what serves it instead."""

from __future__ import annotations

from solver.rulebook.kinds import NotARule

NOT_RULES: tuple[NotARule, ...] = ()
