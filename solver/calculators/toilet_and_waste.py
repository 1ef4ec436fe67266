"""Human waste that is carried out, and the paper, bags and containers for it."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up

WET_G_PER_PERSON_DAY = 128.0
DRY_G_PER_PERSON_DAY = 29.0
EVENTS_PER_PERSON_DAY = 1.2
PLANNED_G_PER_PERSON_DAY = 150.0
LINER_G_PER_PERSON_DAY = 20.0
CONTAINER_TARE_G = 1100.0


def measured_faeces_g(*, person_days: float, diet_factor: float = 1.0) -> float:
    """Wet mass of faeces, as measured in healthy people [g].

    Range: 0 to 10 000 person-days; diet factor 1 (usual) to 2 (rich in fibre); refused outside.

    Source: Rose, Parker, Jefferson and Cartmell, The characterization of feces and urine: a review
    of the literature to inform advanced treatment technology, Crit Rev Environ Sci Technol
    45:1827-1879, 2015, doi 10.1080/10643389.2014.1000761: median 128 g wet per person-day, 29 g of
    it dry, twice as much on a diet rich in fibre; status: read.

    Departs: does not. Plans take ``PLANNED_G_PER_PERSON_DAY``, 150 g, and 20 g of liner (common
    practice, no source).

    Independent check: none was found.
    """
    _require_person_days(person_days)
    require_within("diet_factor", diet_factor, 1.0, 2.0, "times")
    return WET_G_PER_PERSON_DAY * person_days * diet_factor


def toilet_events(*, person_days: float) -> int:
    """Times that somebody needs a bag [count].

    Range: 0 to 10 000 person-days, refused outside.

    Source: Rose et al. 2015, doi 10.1080/10643389.2014.1000761: 1.20 events per person-day; status:
    read.

    Departs: rounded up.

    Independent check: none was found.
    """
    _require_person_days(person_days)
    return whole_up(EVENTS_PER_PERSON_DAY * person_days)


def toilet_paper_g(*, person_days: float, g_per_person_day: float = 15.0) -> float:
    """Toilet paper to take [g]; the used paper comes down too.

    Range: 0 to 10 000 person-days, 0 to 50 g per person-day; refused outside.

    Source: 10 to 15 g per person-day; status: memory-unverified, weak. The upper figure is the
    default.

    Departs: not a published model.

    Independent check: none was found.
    """
    _require_person_days(person_days)
    require_within("g_per_person_day", g_per_person_day, 0.0, 50.0, "g")
    return person_days * g_per_person_day


def containers_by_volume(
    *,
    person_days: float,
    container_l: float,
    l_per_person_day: float = 0.3,
    l_moved_to_sacks: float = 0.0,
) -> int:
    """Sealed waste containers that the party needs at once [count].

    Range: 0 to 10 000 person-days, container 1 to 60 L, 0.15 to 1 L per person-day; refused
    outside. What is moved to sealed transport sacks on the way is taken off, down to nothing left;
    one container is always needed if anybody goes.

    Source: common practice, no source: 0.2 to 0.3 L per person-day, so that an 8 L container serves
    27 to 40 person-days.

    Departs: makers and land managers often name far fewer uses, about 10 to 14 for 7 L
    (memory-unverified): ``containers_by_uses`` counts that way; ask, and take the larger.

    Independent check: none was found.
    """
    _require_person_days(person_days)
    require_within("container_l", container_l, 1.0, 60.0, "L")
    require_within("l_per_person_day", l_per_person_day, 0.15, 1.0, "L")
    require_within("l_moved_to_sacks", l_moved_to_sacks, 0.0, float("inf"), "L")
    if person_days == 0:
        return 0
    litres = max(0.0, person_days * l_per_person_day - l_moved_to_sacks)
    return max(1, whole_up(litres / container_l))


def containers_by_uses(*, person_days: float, uses_per_container: float) -> int:
    """Sealed waste containers, counted by the uses that their maker or the manager allows [count].

    Range: 0 to 10 000 person-days, 1 to 200 uses per container; refused outside.

    Source: arithmetic on 1.20 uses per person-day (Rose et al. 2015, read). The number of uses must
    be asked for; about 10 to 14 for a 7 L can is memory-unverified.

    Departs: does not.

    Independent check: none was found.
    """
    require_within("uses_per_container", uses_per_container, 1.0, 200.0, "uses")
    return whole_up(toilet_events(person_days=person_days) / uses_per_container)


@dataclass(frozen=True, slots=True)
class WasteNeed:
    """Waste of a number of person-days and what is taken along for it."""

    faeces_g: float
    liners_g: float
    bags: int
    paper_g: float
    containers: int
    containers_tare_g: float
    carried_down_g: float


def waste_need(*, person_days: float, container_l: float = 8.0) -> WasteNeed:
    """Planned waste, bags, paper and containers of a number of person-days [g, count].

    Range: 0 to 10 000 person-days, container 1 to 60 L; refused outside.

    Source: common practice, no source: 150 g and a 20 g liner per person-day, one bag for each use,
    a container of 1.1 kg; the measured 128 g and 1.20 uses stand in ``measured_faeces_g`` and
    ``toilet_events``.

    Departs: not a published model. The planned mass lies 17 % above the measured median because a
    plan that runs out of room cannot be mended on the glacier. Urine is not carried.

    Independent check: the planned mass against the measured median.
    """
    faeces = PLANNED_G_PER_PERSON_DAY * person_days
    liners = LINER_G_PER_PERSON_DAY * person_days
    paper = toilet_paper_g(person_days=person_days)
    containers = containers_by_volume(person_days=person_days, container_l=container_l)
    tare = CONTAINER_TARE_G * containers
    return WasteNeed(
        faeces_g=faeces,
        liners_g=liners,
        bags=toilet_events(person_days=person_days),
        paper_g=paper,
        containers=containers,
        containers_tare_g=tare,
        carried_down_g=faeces + liners + paper + tare,
    )


def _require_person_days(person_days: float) -> None:
    require_within("person_days", person_days, 0.0, 10_000.0, "person-days")
