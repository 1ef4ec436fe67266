"""Preferences on sleds: their share by slope, on traverses, for the lead and for the last."""

from __future__ import annotations

from collections.abc import Iterator

from solver.model.goals.party import Mover, ropes_of
from solver.model.goals.soft_constraint import Inequality, SoftConstraint
from solver.model.instance.world import World
from solver.problem import Trip
from solver.quantities import share_down


def sled_constraints(world: World, trip: Trip, party: list[Mover]) -> Iterator[SoftConstraint]:
    """Every preference on the sleds of a trip."""
    haulers = [one for one in party if one.sled_id]
    place = world.problem.route.place
    rise_m = place(trip.to_place).elevation_m - place(trip.from_place).elevation_m
    band = _band(world, trip, rise_m)
    if band is not None:
        yield from (_share(one, *band) for one in haulers)
    if trip.leg.traverse:
        percents = (trip.leg.sled_factor_outbound_percent, _whole(world, "traverse_sled_percent"))
        yield from (_at_most("sled_light_on_traverse", one, percents) for one in haulers)
    ropes = ropes_of(party)
    if trip.leg.crevasse_hazard is not None:
        percents = (trip.sled_factor_percent, _whole(world, "lead_sled_percent"))
        leads = [rope[0] for rope in ropes if rope[0].sled_id]
        yield from (_at_most("lead_sled_light", one, percents) for one in leads)
    if rise_m < 0:
        yield from _lasts(ropes)


def _band(world: World, trip: Trip, rise_m: int) -> tuple[str, int, int] | None:
    """The rule on the sled's share on a trip, with its least and most [%]."""
    angle_deg, number = trip.leg.steepest_deg, world.problem.rules.number
    if angle_deg is None:
        return None
    gentle = angle_deg >= number("gentle_slope_deg")
    steep = angle_deg >= number("steep_slope_deg")
    if rise_m < 0:
        rule_id, name = "sled_share_downhill", "down" if gentle and not steep else ""
    elif angle_deg > number("steepest_sled_deg"):
        rule_id, name = "sled_share_uphill", ""
    else:
        rule_id, name = "sled_share_uphill", "steep" if steep else "gentle" if gentle else "flat"
    if not name:
        return None
    least = _whole(world, f"{name}_least_sled_percent")
    return rule_id, least, _whole(world, f"{name}_most_sled_percent")


def _share(one: Mover, rule_id: str, least: int, most: int) -> SoftConstraint:
    """Least % × (pack + sled) ≤ 100 × sled ≤ most % × (pack + sled)."""
    tare_g, pack_g = one.tare_g, one.on_body_g
    pack_id, sled_id = one.person.person_id, one.sled_id
    return SoftConstraint(
        rule_id,
        (
            Inequality(
                least * (pack_g + tare_g) - 100 * tare_g,
                ((pack_id, least), (sled_id, least - 100)),
                one_g=100,
            ),
            Inequality(
                100 * tare_g - most * (pack_g + tare_g),
                ((pack_id, -most), (sled_id, 100 - most)),
                one_g=100,
            ),
        ),
    )


def _at_most(rule_id: str, one: Mover, percents: tuple[int, int]) -> SoftConstraint:
    """Sled gross ≤ the hauler's cap times the leg's factor times the rule's share."""
    limit_g = one.person.caps.sled_g
    for percent in percents:
        limit_g = share_down(amount=limit_g, percent=percent)
    return SoftConstraint(rule_id, (Inequality(one.tare_g - limit_g, ((one.sled_id, 1),)),))


def _lasts(ropes: list[list[Mover]]) -> Iterator[SoftConstraint]:
    """The last sled of each rope ≤ each other sled of it."""
    for rope in ropes:
        last, others = rope[-1], [one for one in rope[:-1] if one.sled_id]
        if last.sled_id and others:
            yield SoftConstraint(
                "last_on_rope_light",
                tuple(
                    Inequality(
                        last.tare_g - one.tare_g,
                        ((last.sled_id, 1), (one.sled_id, -1)),
                    )
                    for one in others
                ),
            )


def _whole(world: World, name: str) -> int:
    return world.problem.rules.whole(name)
