"""A set of statements that clash: no plan keeps them all, and without any one of them there is one.

The relaxation names candidates (`blamed_rows`). They are confirmed on the whole problem: a frame
with nothing but their rows and the structure of the world must have no plan, and each is let go
in turn. Where no plan exists without it either, it goes for good; where one is found, it cannot be
left out. What could not be decided in time stays, and the clash says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from solver.model.formulation.build_frame import rows_of, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.any_plan import any_plan
from solver.model.infeasible.blamed_rows import Blamed, BlameSearch
from solver.model.infeasible.statements import (
    STRUCTURE,
    Statement,
    cargoes_of,
    statements_of,
)
from solver.model.instance.world import World
from solver.model.rows import PinRow, RideRow, Row, StockRow
from solver.model.solvers.relaxation_refusals import is_impossible
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.outcome import Limits
from solver.progress import Watch

_SECONDS = 5.0
"""Time for one question to the relaxation, or for one search of a plan [s]."""


_MOST_PROOFS = 3
"""How many more proofs are looked for; each rules out changes that cannot help alone [1]."""


@dataclass(frozen=True, slots=True)
class Clash:
    """Statements that no plan keeps together, in the order of days.

    `needed[i]` says that a plan was found that keeps all but statement i. `others` are more proofs
    that there is no plan, each leaning on other caps.
    """

    statements: tuple[Statement, ...]
    needed: tuple[bool, ...]
    others: tuple[Blamed, ...] = ()


def find_clash(frame: Frame, limits: Limits, watch: Watch) -> Clash | None:
    """A clash of few statements; None where divisible loads do not show any."""
    search = BlameSearch(frame, watch)
    blamed = search.next_blamed(few=True)
    if blamed is None:
        return None
    further = _more_proofs(search, watch)
    world, rows = frame.world, rows_of(frame.world)
    kept = _candidates(world, rows, blamed)
    if not _is_impossible(frame_of(world, rows, kept)):
        # What had been settled rests on more rows than the relaxation could blame.
        kept = list(statements_of(world, rows))
        if not _is_impossible(frame_of(world, rows, kept)):
            return None
    kept = _fewer(world, rows, kept, watch)
    needed: dict[Statement, bool] = {}
    for statement in list(kept):
        others = [other for other in kept if other != statement]
        frame_without = frame_of(world, rows, others)
        if watch.left() <= 0:
            needed[statement] = False
            continue
        time = Watch(min(_SECONDS, watch.left()), now=watch.now, wish_to_stop=watch.should_stop)
        time.start()
        found = any_plan(frame_without, limits, time)
        if found.infeasible:
            kept = others
        else:
            needed[statement] = found.draft is not None
    ordered = sorted(kept, key=_when)
    return Clash(tuple(ordered), tuple(needed[statement] for statement in ordered), further)


def _more_proofs(search: BlameSearch, watch: Watch) -> tuple[Blamed, ...]:
    """A few more proofs, while there are any and there is time."""
    found: list[Blamed] = []
    while len(found) < _MOST_PROOFS and watch.left() > 0:
        blamed = search.next_blamed(few=False)
        if blamed is None or not blamed.caps:
            break
        found.append(blamed)
    return tuple(found)


def _candidates(world: World, rows: list[Row], blamed: Blamed) -> list[Statement]:
    """The statements of the rows that are blamed, and of those that make blamed things ride."""
    unit_of = [thing.unit_id for thing in world.cargo]
    return list(
        statements_of(
            world,
            (
                row
                for row in rows
                if row in blamed.caps
                or row in blamed.rows
                or isinstance(row, PinRow)
                or (
                    isinstance(row, RideRow | StockRow)
                    and any(unit_of[cargo] in blamed.unit_ids for cargo in cargoes_of(row))
                )
            ),
        )
    )


def frame_of(world: World, rows: Iterable[Row], statements: Iterable[Statement]) -> Frame:
    """A frame with the structure of a world and the rows of some statements only."""
    kept = {row for statement in statements for row in statement.rows}
    chosen = [row for row in rows if isinstance(row, STRUCTURE) or row in kept]
    return without_redundant_losses(sort_rows(world, chosen))


def _fewer(world: World, rows: list[Row], kept: list[Statement], watch: Watch) -> list[Statement]:
    """The statements that are left once those are gone without which divisible loads fail, too."""
    for statement in sorted(kept, key=_order):
        if watch.left() <= 0:
            break
        others = [other for other in kept if other != statement]
        if _is_impossible(frame_of(world, rows, others)):
            kept = others
    return kept


def _order(statement: Statement) -> int:
    """What goes first: rules that are hard to change; then what must be where; caps last."""
    if statement.is_of_caps:
        return 3
    return 2 if statement.rule_id == "reserves_held" else 1


def _when(statement: Statement) -> tuple[bool, int, int]:
    about = dict(statement.about)
    return (not statement.is_of_caps, int(about.get("day", 0)), int(about.get("step", 0)))


def _is_impossible(frame: Frame) -> bool:
    return is_impossible(build_relaxation(frame), seconds=_SECONDS, divisible=True)
