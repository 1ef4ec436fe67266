"""Figures of final plans are read once."""

from api_schema.figures_answer import PlanFiguresAnswer
from service.reports.kept_figures import KeptFigures

FIGURES = PlanFiguresAnswer(**dict.fromkeys(PlanFiguresAnswer.model_fields) | {"outcome": "solved"})


def test_what_was_read_once_is_kept_and_the_oldest_goes_first():
    """Of three plans with room for two, the one that nobody asked for lately is read again."""
    kept, read = KeptFigures(most=2), []

    def ask(name: str) -> PlanFiguresAnswer | None:
        return kept.of(name, lambda: read.append(name) or FIGURES)

    for name in ("a", "b", "a", "c", "a", "b"):
        assert ask(name) == FIGURES
    assert read == ["a", "b", "c", "b"]


def test_a_plan_without_figures_is_asked_again():
    """Nothing is kept of a plan that has no outcome."""
    kept = KeptFigures()
    assert kept.of("a", lambda: None) is None
    assert kept.of("a", lambda: FIGURES) == FIGURES
