"""One sled more or less, one person more or less."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.diagnosis import ChangeKind
from solver.problem import LegMode, Problem, Sled
from solver.questions.changes.change import Apply, Change, fixed
from solver.questions.changes.enough import with_enough


def sled_changes(problem: Problem) -> Iterator[Change]:
    """A sled like the first for each person who may haul one and has none."""
    if not any(leg.mode is LegMode.SLED for leg in problem.route.legs) or not problem.sleds:
        return
    pulling = {who for sled in problem.sleds for who, _ in sled.shares()}
    for person in problem.roster:
        if person.person_id in pulling or not person.caps.sled_g:
            continue
        sled = replace(
            problem.sleds[0],
            sled_id=f"{person.person_id}-sled",
            hauler_id=person.person_id,
            second_hauler_id=None,
        )
        yield Change(
            ChangeKind.SLED,
            fixed(f"one sled more, like {problem.sleds[0].sled_id}, hauled by {person.person_id}"),
            _with_sled(sled),
            about=(("person", person.person_id),),
        )


def fewer_sleds(problem: Problem) -> Iterator[Change]:
    """Each sled left at home."""
    for sled in problem.sleds:
        yield Change(
            ChangeKind.SLED,
            fixed(f"without sled {sled.sled_id}"),
            _without_sled(sled),
            about=(("sled", sled.sled_id),),
        )


def _with_sled(sled: Sled) -> Apply:
    return lambda problem, _: replace(problem, sleds=(*problem.sleds, sled))


def _without_sled(sled: Sled) -> Apply:
    return lambda problem, _: replace(
        problem,
        sleds=tuple(s for s in problem.sleds if s != sled),
        pins=tuple(p for p in problem.pins if not (p.on_sled and p.person_id == sled.hauler_id)),
    )


def one_more_person(problem: Problem) -> Iterator[Change]:
    """One more person like each on the roster, with a kit and sled of the same kind and fuel."""
    for person in problem.roster:
        other_id = f"{person.person_id}-2"

        def apply(
            problem: Problem, _: int, person_id: str = person.person_id, other_id: str = other_id
        ) -> Problem:
            person = problem.person(person_id)
            kit = tuple(
                replace(item, owner_id=other_id)
                for item in problem.gear
                if item.owner_id == person_id
            )
            sleds = tuple(
                replace(sled, sled_id=f"{sled.sled_id}-2", hauler_id=other_id)
                for sled in problem.sleds
                if sled.hauler_id == person_id and sled.second_hauler_id is None
            )
            more = replace(
                problem,
                roster=(*problem.roster, replace(person, person_id=other_id)),
                gear=problem.gear + kit,
                sleds=problem.sleds + sleds,
            )
            return with_enough(more)

        yield Change(
            ChangeKind.PERSON,
            fixed(f"one more person like {person.person_id}, with kit, food and fuel"),
            apply,
            about=(("person", person.person_id),),
        )


def one_less_person(problem: Problem) -> Iterator[Change]:
    """Each person left at home, with kit and sled."""
    if len(problem.roster) < 2:
        return
    for person in problem.roster:

        def apply(problem: Problem, _: int, person_id: str = person.person_id) -> Problem:
            return replace(
                problem,
                roster=tuple(p for p in problem.roster if p.person_id != person_id),
                gear=tuple(i for i in problem.gear if i.owner_id != person_id),
                sleds=tuple(
                    s for s in problem.sleds if person_id not in (s.hauler_id, s.second_hauler_id)
                ),
                evacuations=tuple(e for e in problem.evacuations if e.person_id != person_id),
                pins=tuple(pin for pin in problem.pins if pin.person_id != person_id),
            )

        yield Change(
            ChangeKind.PERSON,
            fixed(f"without {person.person_id}, kit and food"),
            apply,
            about=(("person", person.person_id),),
        )
