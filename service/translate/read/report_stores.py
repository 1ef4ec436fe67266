"""Faults of what a report says of stores: sets, containers, what is gone, what was weighed."""

from __future__ import annotations

from collections.abc import Sequence

from service.translate.read import quantities
from service.translate.read.near_names import unknown_id_words
from service.translate.read.report_facts import ReadReport
from service.translate.read.report_fuel import drawn_ml, is_counted, spilt_ml


def examine_stores(report: ReadReport) -> None:
    """Take down every fault of the stores of a report."""
    _sets(report)
    _containers(report)
    _gone(report)
    _spilt(report)
    _weighed(report)


def _known(report: ReadReport, pointer: str, unit_id: str, known: Sequence[str]) -> bool:
    if unit_id in known:
        return True
    report.fault(f"{pointer}/unit_id", "unknown_id", unknown_id_words("unit", unit_id, known))
    return False


def _once(report: ReadReport, name: str) -> None:
    """A unit that a list names twice is a fault: nobody knows whether they add up."""
    seen: set[str] = set()
    for index, one in enumerate(getattr(report.asked, name)):
        if one.unit_id in seen:
            words = f"{one.unit_id} stands here twice. Give one entry with all of them."
            report.fault(f"/{name}/{index}/unit_id", "duplicate_id", words)
        seen.add(one.unit_id)


def _sets(report: ReadReport) -> None:
    _once(report, "night_sets")
    sets = report.sets()
    for index, one in enumerate(report.asked.night_sets):
        pointer = f"/night_sets/{index}"
        if not _known(report, pointer, one.unit_id, list(sets)):
            continue
        per_bag = sets[one.unit_id].sets_per_bag
        home = one.bags * per_bag + one.sets
        most = (report.had(one.unit_id) - report.gone(one.unit_id)) * per_bag
        if home > most:
            _too_many(report, pointer, f"{home} sets", one.unit_id, f"{max(most, 0)} sets")


def _containers(report: ReadReport) -> None:
    _once(report, "containers")
    kinds = report.containers()
    for index, one in enumerate(report.asked.containers):
        pointer = f"/containers/{index}"
        if not _known(report, pointer, one.unit_id, list(kinds)):
            continue
        for number, left in enumerate(one.open):
            if quantities.exactly(left) > kinds[one.unit_id].content_ml:
                words = f"A container of {one.unit_id} holds {kinds[one.unit_id].content_ml} mL."
                report.fault(f"{pointer}/open/{number}", "more_than_there_is", words)
        home = one.full + len(one.open) + (one.empty or 0)
        most = report.had(one.unit_id) - report.gone(one.unit_id) - report.opened_gone(one.unit_id)
        if home > most:
            _too_many(report, pointer, str(home), one.unit_id, str(max(most, 0)))


def _too_many(report: ReadReport, pointer: str, home: str, unit_id: str, most: str) -> None:
    words = (
        f"That makes {home} of {unit_id} at home. Of those taken along, without what is gone, "
        f"there were {most}. Count again."
    )
    report.fault(pointer, "more_than_there_is", words)


def _gone(report: ReadReport) -> None:
    known = [*report.sets(), *report.containers()]
    for index, one in enumerate(report.asked.gone):
        pointer = f"/gone/{index}"
        if not _known(report, pointer, one.unit_id, known):
            continue
        if report.gone(one.unit_id) > report.had(one.unit_id):
            words = f"There were {report.had(one.unit_id)} of {one.unit_id}. Count again."
            report.fault(f"{pointer}/count", "more_than_there_is", words)


def _spilt(report: ReadReport) -> None:
    kitchens = [g.cook_group_id for g in report.problem.cook_groups if g.kitchen_of is None]
    for index, one in enumerate(report.asked.spilt):
        pointer = f"/spilt/{index}"
        if one.cook_group not in kitchens:
            words = unknown_id_words("cook group", one.cook_group, kitchens)
            report.fault(f"{pointer}/cook_group", "unknown_id", words)
        elif report.faults or not is_counted(report, one.cook_group):
            continue
        elif spilt_ml(report, one.cook_group) > (drawn := drawn_ml(report, one.cook_group)):
            words = f"Only {drawn} mL of {one.cook_group} did not come home."
            report.fault(f"{pointer}/amount", "more_than_there_is", words)


def _weighed(report: ReadReport) -> None:
    _once(report, "weighed")
    for index, one in enumerate(report.asked.weighed):
        pointer = f"/weighed/{index}"
        known = _known(report, pointer, one.unit_id, list(report.taken))
        if known and not quantities.exactly(one.mass):
            report.fault(f"{pointer}/mass", "too_small", "Give a mass above 0.")
