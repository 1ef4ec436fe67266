"""What people leave of their food high up."""

from __future__ import annotations

from solver.calculators.body_mass import appetite_lost_share
from solver.problem import Problem
from solver.requirements.figures import Input
from solver.requirements.surroundings import as_given, assumed

SOURCE = (
    "a line from none at 2500 m through 43 % at 8848 m, Rose et al. 1988, J Appl Physiol "
    "65:2545-2551, abstract read; a chamber, without cold or work"
)


def appetite_loss(problem: Problem, elevation_m: int) -> Input:
    """Share of the food that is left uneaten at an elevation [1].

    A share given with the request holds from the rulebook's high band on. Raises ValueError
    outside -430 to 8849 m.
    """
    given = problem.conditions.appetite_loss_share
    if given is None:
        share = round(appetite_lost_share(elevation_m=elevation_m), 4)
        return assumed("appetite_loss", share, "share", SOURCE)
    if elevation_m < problem.rules.whole("high_from_m"):
        return assumed("appetite_loss", 0.0, "share", "the share given holds high up only")
    return as_given("appetite_loss", given, "share")
