"""The race as plain text, at most 110 columns wide."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import median

from tests.benchmarks.race_measures import TIMES, Measures

HEAD = (
    f"  {'':<17}{'first plan':>10}{'to 1 %':>9}{'to 0.1 %':>9}{'proof':>9}"
    f"{'peak':>7}{'bound':>7}{'gap':>8}{'memory':>9}{'building':>9}  ended"
)

ABOUT = """\
Times in seconds, ours from the problem to the plan, the others' from when their model is written
(writing took what stands under building). Peaks and bounds are in 1/10,000 of a person's cap; the
gaps are to the best bound that anybody proved. Everybody had the same two cores, one after the
other: CP-SAT two workers, SCIP one thread, HiGHS as many as it chooses (through MathOpt it fails
when told). Once its peak is proven, ours goes on to few hard days and few swaps, untimed here.
CP-SAT calls back with plans and bounds; HiGHS and SCIP are read off their logs.
Last plans are replayed in whole numbers: by the checker, the textbook's by its own rows."""


def seconds(value: float | None) -> str:
    """A time, or a dash where it was not reached."""
    return "–" if value is None else f"{value:.2f}" if value < 10 else f"{value:.1f}"


def gap(peak: int | None, true_bound: int) -> str:
    """How far a peak is from a bound, as a share of it [per cent]."""
    if peak is None or true_bound == 0:
        return "–"
    return f"{100 * (peak - true_bound) / true_bound:.2f} %"


def line(row: Measures, true_bound: int) -> str:
    """One contestant."""
    times = [seconds(getattr(row, name)) for name, _ in TIMES]
    ended = row.ended + (f", {row.breaches} rules broken" if row.breaches else "")
    return (
        f"  {row.contestant:<17}{times[0]:>10}{times[1]:>9}{times[2]:>9}{times[3]:>9}"
        f"{'–' if row.peak is None else row.peak:>7}{row.bound or '–':>7}"
        f"{gap(row.peak, true_bound):>8}{row.memory_mb:>6.0f} MB{seconds(row.build_s):>9}  {ended}"
    )


def ratio(value: tuple[float, bool] | None) -> str:
    """A ratio, with ≥ in front where it is only known to be that large."""
    if value is None:
        return "–"
    times, at_least = value
    return f"{'≥' if at_least else ''}{times:.1f}×" if times < 100 else f"{times:.0f}×"


def ratio_line(found: dict[str, tuple[float, bool] | None]) -> str:
    """How many times ours the best of the others took."""
    times = [ratio(found[name]) for name, _ in TIMES]
    return (
        f"  {'best other ÷ ours':<17}{times[0]:>10}{times[1]:>9}{times[2]:>9}{times[3]:>9}"
        f"{ratio(found['memory_mb']):>31}"
    )


def table(
    title: str,
    rows: Iterable[Measures],
    true_bound: int,
    found: dict[str, tuple[float, bool] | None],
) -> str:
    """All contestants on one expedition."""
    lines = [title, HEAD, *(line(row, true_bound) for row in rows)]
    if any(found.values()):
        lines.append(ratio_line(found))
    return "\n".join(lines)


def summary(size: str, races: list[tuple[list[Measures], int]], limit: float) -> str:
    """Medians over the seeds of one size; what was not reached counts as the whole time."""
    lines = [f"{size}: medians of {len(races)} seeds (≥ where the median was not reached)"]
    for name in dict.fromkeys(row.contestant for rows, _ in races for row in rows):
        mine = [(row, bound) for rows, bound in races for row in rows if row.contestant == name]
        planned = [(row.peak, bound) for row, bound in mine if row.peak is not None and bound]
        cells = []
        for measure, _ in TIMES:
            middle = median(getattr(row, measure) or float("inf") for row, _ in mine)
            cells.append(f"≥{limit:.0f}" if middle == float("inf") else seconds(middle))
        gaps = [100 * (peak - bound) / bound for peak, bound in planned]
        lines.append(
            f"  {name:<17}{cells[0]:>10}{cells[1]:>9}{cells[2]:>9}{cells[3]:>9}{'':>14}"
            f"{f'{median(gaps):.2f} %' if gaps else '–':>8}"
            f"{median(row.memory_mb for row, _ in mine):>6.0f} MB"
            f"{'':>9}  {len(planned)}/{len(mine)} with a plan"
        )
    return "\n".join(lines)
