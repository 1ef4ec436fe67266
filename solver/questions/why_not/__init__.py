"""Why there is no plan, and what would help."""

from solver.questions.why_not.diagnose import diagnose

__all__ = ["diagnose"]
