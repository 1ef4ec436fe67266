"""What to do about a person who has to go down, in sentences: who goes, who waits, whom to call."""

from __future__ import annotations

from collections.abc import Iterator

from api_schema.load_answer import TripAnswer
from service.translate.write.units import kilograms
from solver.checker.queries.words import listed
from solver.outcome import Infeasible
from solver.rest.fetched import UntilFetched
from solver.rest.hurt import Evacuation, How
from solver.rest.result import Rest

NOT_ALONE = (
    "People on the spot decide. Call the rescue services, and ask a physician: this is no medical "
    "advice."
)

_VERBS = {How.WALKS: "walks", How.HAULED: "is hauled", How.NOT_HURT: "goes"}


def evacuation_words(
    evacuation: Evacuation, trips: list[TripAnswer], stay: Rest | None
) -> Iterator[str]:
    """What to do, in sentences: whether it can be done, who goes, who stays, whom to call."""
    who, companions = evacuation.leaving[0], evacuation.leaving[1:]
    along = f" with {listed(companions)}" if companions else ""
    if evacuation.until_fetched is not None:
        yield from _until_fetched(evacuation, evacuation.until_fetched)
    elif evacuation.is_possible:
        yield f"{who} {_VERBS[evacuation.hurt.how]} down{along}. {_first_day(evacuation, trips)}"
    else:
        yield f"{who} cannot be brought down{along} by your own means: {_why(evacuation)}."
    if evacuation.limit is not None:
        yield (
            f"{who} carries at most {kilograms(evacuation.limit.most_g):.1f} kg: "
            f"{evacuation.limit.why}."
        )
    for one in evacuation.outside:
        yield f"Help from outside would need to bring: {one}."
    yield _of_the_others(evacuation, stay)
    if evacuation.hurt.how is not How.NOT_HURT:
        yield NOT_ALONE


def reasons(down: Rest | None) -> Iterator[str]:
    """Why those who leave have no plan, if they have none."""
    if down is not None and isinstance(down.outcome, Infeasible):
        yield from (conflict.message for conflict in down.outcome.conflicts)


def _until_fetched(evacuation: Evacuation, wait: UntilFetched) -> Iterator[str]:
    """Who waits with a person who is fetched, and what stays there so long."""
    who, place = evacuation.leaving[0], evacuation.place_id
    if not wait.with_them:
        yield (
            f"{who} waits at {place} to be fetched and is alone there. Nobody who is hurt should "
            "be alone: send somebody to them."
        )
    else:
        few = len(wait.with_them) == 1
        also = f"{listed(wait.with_them)} {'waits' if few else 'wait'} there too"
        then = f": nobody leaves {place} before {who} has been fetched."
        if wait.others_go_on:
            then = f" and {'leaves' if few else 'leave'} with them."
        yield f"{who} waits at {place} to be fetched. {also}{then}"
    things = ", ".join(f"{unit} ({count})" for _, unit, count in wait.things)
    yield f"This stays at {place} for {wait.nights} nights of waiting: {things or 'nothing'}."


def _of_the_others(evacuation: Evacuation, stay: Rest | None) -> str:
    """What those do who do not leave."""
    others, day = listed(evacuation.staying), evacuation.next_day
    if not evacuation.staying:
        return "Nobody stays. What they do not take is left behind."
    wait = evacuation.until_fetched
    everybody_waits = wait is not None and not wait.others_go_on
    once = f"Once {evacuation.leaving[0]} has been fetched, " if everybody_waits else ""
    if stay is not None and not stay.is_solved:
        or_all = "." if wait is not None else ", or name everybody in `companions`."
        return (
            f"{once}{others} cannot go on as planned. Send `calendar`, the whole one from day 1, "
            f"with their way down from day {day} on{or_all}"
        )
    if everybody_waits:
        return (
            f"{once}{others} can go on. This answer has their plan, with day {day} as their first. "
            "If you wait longer than that, ask for the wait first (`wait_nights`), then for this "
            "again."
        )
    return f"{others} can stay and go on. This answer has their plan."


def _why(evacuation: Evacuation) -> str:
    """The first reason why those who leave cannot get down by themselves."""
    if evacuation.haul is not None and evacuation.haul.cannot:
        return evacuation.haul.cannot[0]
    conflicts = [message.rstrip(".") for message in reasons(evacuation.down)]
    return conflicts[0] if conflicts else "no plan was found in time"


def _first_day(evacuation: Evacuation, trips: list[TripAnswer]) -> str:
    """Their first move, and who has the largest load of that day."""
    if not trips:
        return ""
    first = trips[0]
    that_day = [load for trip in trips if trip.day == first.day for load in trip.loads]
    heaviest = max(that_day, key=lambda load: load.total_kg)
    haul = evacuation.haul
    litter = (
        ""
        if haul is None
        else f" Each of those who haul also pulls {kilograms(haul.share_g):.1f} kg of the litter."
    )
    return (
        f"First, on day {first.day}: {first.from_} to {first.to}. The heaviest load of that day is "
        f"{heaviest.total_kg:.1f} kg in pack and sled ({heaviest.person_id}).{litter}"
    )
