"""Answers as callers see them."""

import json
from typing import Any

from pydantic import BaseModel


def wire(answer: BaseModel) -> Any:
    """An answer written as JSON and read again."""
    return json.loads(answer.model_dump_json())
