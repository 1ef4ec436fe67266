"""Larger caps: of one person, of everybody on one kind of leg, of one sled."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from solver.diagnosis import ChangeKind
from solver.problem import Caps, Direction, LegMode, Person, Problem, Sled
from solver.questions.changes.change import Apply, Change, figure, fixed

_Edit = Callable[[Person, int], Person]

_ON_ALL_LEGS, _OF_ALL_PEOPLE = 1, 2
"""What a change asks more than one on some legs, and than one of one person [1]."""

ByLeg = tuple[LegMode, Direction]


def cap_changes(problem: Problem) -> Iterator[Change]:
    """A larger cap of each person and of each sled, then of all people together."""
    for person in problem.roster:
        for name, unit, edit in _edits(person):
            yield _of_people(f"{name} of {person.person_id}", unit, edit, person.person_id)
    for sled in problem.sleds:
        yield from _of_sled(sled)
    if len(problem.roster) > 1:
        for name, unit, edit in _edits(problem.roster[0]):
            yield _of_people(f"{name} of each person", unit, edit, None)


def smaller_caps(problem: Problem, less: int) -> Iterator[Change]:
    """Each cap of one person or sled, smaller by an amount [g or mL]; none that would be nought."""
    for change in cap_changes(problem):
        if change.about:
            yield Change(
                ChangeKind.CAP,
                fixed(change.say(less).replace("raise", "lower", 1)),
                _smaller(change.apply, less),
                about=change.about,
                burden=change.burden,
                tightens=True,
            )


def _smaller(apply: Apply, less: int) -> Apply:
    def smaller(problem: Problem, _: int) -> Problem | None:
        changed = apply(problem, -less)
        return changed if changed is not None and _all_hold_something(changed) else None

    return smaller


def _all_hold_something(problem: Problem) -> bool:
    """Whether no cap, limit or volume has become nought or less."""
    people = (
        cap
        for person in problem.roster
        for cap in (
            person.caps.pack_g,
            *(cap_g for _, _, cap_g in person.caps.pack_by_leg),
            person.pack_volume_ml,
            1 if person.caps.sled_g == 0 else person.caps.sled_g,
            1 if person.caps.total_g is None else person.caps.total_g,
            1 if person.load_limit_g is None else person.load_limit_g,
        )
    )
    sleds = (cap for sled in problem.sleds for cap in (sled.mass_limit_g, sled.volume_ml))
    return all(cap > 0 for cap in (*people, *sleds))


def _edits(person: Person) -> Iterator[tuple[str, str, _Edit]]:
    """What may be larger of one person: its name, its unit, and how."""
    which = "every pack cap" if person.caps.pack_by_leg else "the pack cap"
    yield which, "g", _in_caps(_every_pack)
    for mode, direction, _ in person.caps.pack_by_leg:
        leg = f"{mode.value.replace('_', ' ')} legs, {direction.value}"
        yield f"the pack cap on {leg},", "g", _in_caps(_by_leg((mode, direction)))
    yield (
        "the pack volume",
        "mL",
        lambda p, more: replace(p, pack_volume_ml=p.pack_volume_ml + more),
    )
    if person.caps.sled_g:
        yield (
            "the sled cap",
            "g",
            _in_caps(lambda caps, more: replace(caps, sled_g=caps.sled_g + more)),
        )
    if person.caps.total_g is not None:
        yield "the total cap", "g", _in_caps(_total)
    if person.load_limit_g is not None:
        yield "the load limit", "g", _limit


def _in_caps(change: Callable[[Caps, int], Caps]) -> _Edit:
    return lambda person, more: replace(person, caps=change(person.caps, more))


def _by_leg(leg: ByLeg) -> Callable[[Caps, int], Caps]:
    return lambda caps, more: replace(
        caps,
        pack_by_leg=tuple(
            (mode, direction, cap_g + more if (mode, direction) == leg else cap_g)
            for mode, direction, cap_g in caps.pack_by_leg
        ),
    )


def _every_pack(caps: Caps, more: int) -> Caps:
    """Larger packs on all legs, those with a cap of their own among them."""
    by_leg = tuple((mode, way, cap_g + more) for mode, way, cap_g in caps.pack_by_leg)
    return replace(caps, pack_g=caps.pack_g + more, pack_by_leg=by_leg)


def _total(caps: Caps, more: int) -> Caps:
    return caps if caps.total_g is None else replace(caps, total_g=caps.total_g + more)


def _roomier(person: Person, more: int) -> Person:
    return replace(person, pack_volume_ml=person.pack_volume_ml + more)


def _limit(person: Person, more: int) -> Person:
    if person.load_limit_g is None:
        return person
    return replace(person, load_limit_g=person.load_limit_g + more)


def _of_people(what: str, unit: str, edit: _Edit, person_id: str | None) -> Change:
    def apply(problem: Problem, more: int) -> Problem:
        return replace(
            problem,
            roster=tuple(
                edit(p, more) if person_id in (None, p.person_id) else p for p in problem.roster
            ),
        )

    burden = 0 if person_id else _OF_ALL_PEOPLE
    burden += _ON_ALL_LEGS if what.startswith("every") else 0
    return _larger(what, unit, apply, (("person", person_id),) if person_id else (), burden)


def _larger(
    what: str, unit: str, apply: Apply, about: tuple[tuple[str, str], ...], burden: int = 0
) -> Change:
    return Change(
        ChangeKind.CAP,
        lambda more: f"raise {what} by {figure(more, unit)}".replace(",,", ","),
        apply,
        unit,
        about,
        burden=burden,
    )


def _of_sled(sled: Sled) -> Iterator[Change]:
    about = (("sled", sled.sled_id),)

    def with_sled(change: Callable[[Sled, int], Sled]) -> Apply:
        return lambda problem, more: replace(
            problem,
            sleds=tuple(change(s, more) if s.sled_id == sled.sled_id else s for s in problem.sleds),
        )

    yield _larger(
        f"the mass limit of sled {sled.sled_id}",
        "g",
        with_sled(lambda s, more: replace(s, mass_limit_g=s.mass_limit_g + more)),
        about,
    )
    yield _larger(
        f"the volume of sled {sled.sled_id}",
        "mL",
        with_sled(lambda s, more: replace(s, volume_ml=s.volume_ml + more)),
        about,
    )
