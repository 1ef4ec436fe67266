"""Counts that a request gives, which stay as they are whoever goes along."""

from __future__ import annotations

from service.translate.read.edits.nodes import Node, Scalar, entries, said


def counts_that_stay(root: Node) -> list[str]:
    """Each given count that may have been meant for so many people, in words."""
    gear = [
        f"{number} x {said(item, 'item_id')}"
        for item in entries(root, "gear")
        if (number := _whole(said(item, "count"))) > 1
    ]
    bags = [
        f"{_whole(said(night_set, 'bags'))} bags of {said(night_set, 'set_id')}"
        for night_set in entries(root, "menu", "night_sets")
        if said(night_set, "bags") is not None
    ]
    containers = [
        f"{_whole(said(container, 'count'))} x {said(container, 'container_id')}"
        for container in entries(root, "fuel", "containers")
        if said(container, "count") is not None
    ]
    held = [
        f"an evacuation reserve for {_whole(said(reserve, 'people'))} at {said(reserve, 'place')}"
        for reserve in entries(root, "reserves")
        if said(reserve, "people") is not None
    ]
    counts = [*gear, *bags, *containers, *held]
    return [f"counts that stay as given: {', '.join(counts)}"] if counts else []


def _whole(number: Scalar) -> int:
    """A count as a request may write it, 3 or 3.0; 0 for anything else."""
    is_number = isinstance(number, int | float) and not isinstance(number, bool)
    return int(number) if is_number and number is not None else 0
