"""The rulebook as a list for callers."""

from typing import get_args

from api_schema.plan_request import SwitchableRule
from solver.rulebook import RULES


def rule_entries() -> list[dict[str, str | bool | None]]:
    """Every rule with its sentence, kind, unit, default and the status of its source."""
    switchable = get_args(SwitchableRule)
    return [
        {
            "rule_id": rule.rule_id,
            "sentence": rule.sentence,
            "unit": rule.unit,
            "kind": rule.kind.value,
            "default": rule.default,
            "source_status": rule.source.value,
            "can_be_switched_off": rule.rule_id in switchable,
        }
        for rule in RULES
    ]
