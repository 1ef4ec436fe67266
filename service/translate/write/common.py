"""What every answer to a request says: its reference, what was assumed, what to be careful of."""

from __future__ import annotations

from typing import Any

from service.translate.read.requests import ReadRequest
from service.translate.write.cautions import cautions_for


def common_part(read: ReadRequest) -> dict[str, Any]:
    """Reference, title, start date, assumptions and cautions."""
    return {
        "reference": read.reference,
        "title": read.title,
        "start_date": None if read.start_date is None else read.start_date.isoformat(),
        "assumptions": [
            {
                "pointer": assumption.pointer,
                "what": assumption.what,
                "value": assumption.value,
                "source_status": assumption.source,
            }
            for assumption in read.assumptions
        ],
        "cautions": [
            {"caution_id": caution.caution_id, "text": caution.text}
            for caution in cautions_for(read.problem)
        ],
    }
