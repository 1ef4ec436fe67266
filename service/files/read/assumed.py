"""What the reading of a file took for granted, each with the rows that it concerns."""

from __future__ import annotations

from dataclasses import dataclass, field

from api_schema.file_answer import FileAssumptionAnswer

_MOST_ROWS = 200


@dataclass(slots=True)
class Assumed:
    """Sentences with rows, collected while a file is read; each sentence stands once."""

    rows_of: dict[str, list[int]] = field(default_factory=dict)

    def note(self, sentence: str, row: int | None = None) -> None:
        """Take down that a sentence holds, for a row if it is about one."""
        rows = self.rows_of.setdefault(sentence, [])
        if row is not None:
            rows.append(row)

    def answers(self) -> list[FileAssumptionAnswer]:
        """As the answer lists them."""
        return [
            FileAssumptionAnswer(
                what=sentence, rows=rows[:_MOST_ROWS], rows_left_out=max(0, len(rows) - _MOST_ROWS)
            )
            for sentence, rows in self.rows_of.items()
        ]
