"""A first plan the way a careful guide makes one: the floor that no answer falls below.

Each unit gets a fate (where it is used or kept, and when). Heaviest first, each takes the
way there whose trips are least full; then every trip's loads are shared out longest first.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from itertools import pairwise

from solver.model.assignment.read_plan import Draft
from solver.model.construction.required_rides import take_along
from solver.model.formulation.flow_balance import rooms
from solver.model.formulation.frame import Frame
from solver.model.instance.cargo import Cargo
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH, packed_trip
from solver.model.rows import StockRow
from solver.model.run import Run
from solver.model.solvers.exact_trip import pack_exactly
from solver.quantities import FRACTION_GRID

Stop = tuple[int, str]


@dataclass(slots=True)
class _Fill:
    """How full each trip is: mass and volume so far, against what its carriers hold."""

    frame: Frame
    mass_g: list[int] = field(default_factory=list)
    volume_ml: list[int] = field(default_factory=list)
    room_g: list[int] = field(default_factory=list)
    room_ml: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        for rows in self.frame.load_rows:
            of_mass = [row for row in rows if row.of_mass and row.in_fraction]
            self.mass_g.append(sum(row.fixed for row in of_mass if row.in_pack != row.in_sled))
            self.room_g.append(max(1, sum(r.cap for r in of_mass if r.in_pack != r.in_sled)))
            self.volume_ml.append(0)
            self.room_ml.append(max(1, sum(row.cap for row in rows if not row.of_mass)))

    def fraction_with(self, cargo: int, trip: int) -> int:
        """How full a trip is with one more unit [1/10,000]."""
        mass_g = self.mass_g[trip] + self.frame.weight(cargo, trip, of_mass=True)
        volume_ml = self.volume_ml[trip] + self.frame.weight(cargo, trip, of_mass=False)
        return max(
            FRACTION_GRID * mass_g // self.room_g[trip],
            FRACTION_GRID * volume_ml // self.room_ml[trip],
        )

    def add(self, cargo: int, trip: int) -> None:
        """Take a unit along."""
        self.mass_g[trip] += self.frame.weight(cargo, trip, of_mass=True)
        self.volume_ml[trip] += self.frame.weight(cargo, trip, of_mass=False)


def plan_by_hand(frame: Frame) -> dict[tuple[int, int], int] | None:
    """Units by (cargo, trip), or None where this way of choosing finds no way."""
    fates = _fates(frame)
    if fates is None:
        return None
    fill = _Fill(frame)
    rides: Counter[tuple[int, int]] = Counter()
    for cargo, trip in frame.rides:
        for _ in range(frame.world.cargo[cargo].count):
            fill.add(cargo, trip)
    order = sorted(fates, key=lambda fate: (-frame.world.cargo[fate[0]].mass_g, fate[0]))
    for cargo, stops in order:
        way = _way(frame, fill, cargo, stops)
        if way is None:
            return None
        for trip in way:
            rides[cargo, trip] += 1
            if (cargo, trip) not in frame.rides:
                fill.add(cargo, trip)
    return take_along(frame, rides)


def pack_by_hand(frame: Frame, rides: dict[tuple[int, int], int], run: Run) -> tuple[Draft, bool]:
    """Share every trip's units out longest first; whether all of them fit.

    Where longest first breaks a limit, things are moved about until none is broken; no
    further, since this is the floor and not the answer.
    """
    riding: dict[int, dict[int, int]] = defaultdict(dict)
    for (cargo, trip), units in rides.items():
        if units:
            riding[trip][cargo] = units
    carried: dict[tuple[int, int, str], int] = {}
    room = rooms(frame, rides)
    fits = True
    for trip in range(len(frame.world.timeline.trips)):
        load = packed_trip(frame, trip, riding[trip], room[trip])
        held = load.carried(trip) if load.peak() < TOO_MUCH else None
        if held is None and lower_peak(load, target=FRACTION_GRID) <= FRACTION_GRID:
            held = load.carried(trip)
        if held is None:
            answer = pack_exactly(frame, trip, riding[trip], room[trip], run, enough=FRACTION_GRID)
            held = {(cargo, trip, k): n for (cargo, k), n in (answer.held or {}).items()}
            fits = fits and answer.held is not None
        carried |= held
    return Draft(carried), fits


def _fates(frame: Frame) -> list[tuple[int, list[Stop]]] | None:
    """For each unit, the states and places where it must stand, in order; None if short."""
    rows: dict[int, list[StockRow]] = defaultdict(list)
    shared: list[StockRow] = []
    for row in frame.stock_rows:
        if len(row.terms) == 1 and row.terms[0][1] == 1:
            rows[row.terms[0][0]].append(row)
        elif row.at_least > 0 and row.terms and all(weight > 0 for _, weight in row.terms):
            shared.append(row)
        elif row.at_least > 0:
            return None
    fates: list[tuple[int, list[Stop]]] = []
    spare: dict[int, int] = {}
    for thing in frame.world.cargo:
        if thing.is_stock:
            mine = _stock_fates(frame, thing, rows[thing.index])
            spare[thing.index] = thing.count - len(mine)
            fates += [(thing.index, stops) for stops in mine]
        else:
            stops = _thing_stops(frame, thing, rows[thing.index])
            fates += [(thing.index, list(stops)) for _ in range(thing.count)]
    fates = _eat_reserves_later(frame, fates + _shared_fates(frame, shared, spare))
    taken = Counter(cargo for cargo, _ in fates)
    enough = all(units <= frame.world.cargo[cargo].count for cargo, units in taken.items())
    return fates if enough else None


def _eat_reserves_later(
    frame: Frame, fates: list[tuple[int, list[Stop]]]
) -> list[tuple[int, list[Stop]]]:
    """Use what was kept in reserve on a later night on the way home; what it saves stays behind."""
    world = frame.world
    keepers: dict[int, list[list[Stop]]] = defaultdict(list)
    users: dict[int, list[list[Stop]]] = defaultdict(list)
    result = []
    for cargo, stops in fates:
        if not world.cargo[cargo].is_stock:
            result.append((cargo, stops))
        elif len(stops) == 1:
            users[cargo].append(stops)
        else:
            keepers[cargo].append(stops)
    for cargo, single in users.items():
        for stops in sorted(single, reverse=True):
            state, place_id = stops[0]
            free = [
                kept
                for kept in keepers[cargo]
                if kept[-2][0] < state and world.is_at_or_beyond(kept[-2][1], place_id)
            ]
            if free:
                kept = max(free, key=lambda stops: stops[-2][0])
                keepers[cargo].remove(kept)
                result.append((cargo, [*kept[:-1], stops[0]]))
            else:
                result.append((cargo, stops))
    result += [(cargo, stops) for cargo, many in keepers.items() for stops in many]
    return result


def _thing_stops(frame: Frame, thing: Cargo, rows: list[StockRow]) -> list[Stop]:
    clock, trips = frame.world.clock, frame.world.timeline.trips
    stops = [(row.state, row.place_id) for row in rows if row.at_least > 0]
    for trip in frame.opened[thing.index]:
        if (thing.index, trip) in frame.rides:
            event = clock.trip_event[trip]
            stops += [(event - 1, trips[trip].from_place), (event, trips[trip].to_place)]
    return sorted(stops, key=lambda stop: stop[0])


def _stock_fates(frame: Frame, thing: Cargo, rows: list[StockRow]) -> list[list[Stop]]:
    """Fates of the bags or containers that are used, then of those kept in reserve."""
    fates: list[list[Stop]] = [
        [(event - 1, place_id)] for event, place_id, units in thing.uses for _ in range(units)
    ]
    start, last = frame.world.problem.start_place, frame.world.clock.last
    kept = [
        row
        for row in rows
        if row.at_least > 0 and not (row.state == last and row.place_id == start)
    ]
    for place_id in dict.fromkeys(row.place_id for row in kept):
        here = [row for row in kept if row.place_id == place_id]
        for rank in range(1, max(row.at_least for row in here) + 1):
            states = [row.state for row in here if row.at_least >= rank]
            fates.append([(min(states), place_id), (max(states), place_id), (last, start)])
    return fates


def _shared_fates(
    frame: Frame, rows: list[StockRow], spare: dict[int, int]
) -> list[tuple[int, list[Stop]]]:
    """Whole containers for each place's fuel reserve: the smallest that will do, else largest.

    Kinds with units to spare come first, then containers that were held elsewhere before;
    where there is none either, one that is burnt later must serve.
    """
    home = (frame.world.clock.last, frame.world.problem.start_place)
    fates: list[tuple[int, list[Stop]]] = []
    groups: dict[tuple[str, tuple[tuple[int, int], ...]], list[StockRow]] = defaultdict(list)
    for row in rows:
        groups[row.place_id, row.terms].append(row)
    for (place_id, terms), here in sorted(
        groups.items(), key=lambda group: min(row.state for row in group[1])
    ):
        content = dict(terms)
        missing = max(row.at_least for row in here)
        states = [row.state for row in here]
        stay = [(min(states), place_id), (max(states), place_id)]
        while missing > 0:
            free = [c for c, stops in fates if c in content and stops[-1][0] < stay[0][0]]
            kinds = [c for c in content if spare[c] > 0] or free or list(content)
            left = sorted((content[c], c) for c in kinds)
            amount, cargo = next((pair for pair in left if pair[0] >= missing), left[-1])
            missing -= amount
            if spare[cargo] <= 0 and cargo in free:
                held = (stops for c, stops in fates if c == cargo and stops[-1][0] < stay[0][0])
                max(held, key=lambda stops: stops[-1][0]).extend(stay)
            else:
                spare[cargo] -= 1
                fates.append((cargo, list(stay)))
    return [(cargo, [*stops, home]) for cargo, stops in fates]


def _way(frame: Frame, fill: _Fill, cargo: int, stops: list[Stop]) -> list[int] | None:
    """The trips by which a unit gets from stop to stop, the least full of those it could take."""
    thing = frame.world.cargo[cargo]
    here: Stop = (thing.born, thing.birthplace)
    way: list[int] = []
    for stop in stops:
        if stop[1] != here[1]:
            best = _least_full(frame, fill, cargo, here, stop)
            if best is None:
                return None
            way += best
        here = stop
    return way


def _least_full(frame: Frame, fill: _Fill, cargo: int, here: Stop, there: Stop) -> list[int] | None:
    """Of all ways between two stops, the one whose fullest trip is least full.

    Best[(place, event)] grows event by event, so each trip is looked at once.
    """
    clock, trips = frame.world.clock, frame.world.timeline.trips
    path = frame.world.problem.route.path(here[1], there[1])
    best: dict[str, tuple[int, int, list[int]]] = {here[1]: (0, 0, [])}
    step = dict(pairwise(path))
    for trip in frame.opened[cargo]:
        event = clock.trip_event[trip]
        leaves, enters = trips[trip].from_place, trips[trip].to_place
        if not here[0] < event <= there[0] or step.get(leaves) != enters or leaves not in best:
            continue
        worst, total, so_far = best[leaves]
        if so_far and clock.trip_event[so_far[-1]] >= event:
            continue
        full = 0 if (cargo, trip) in frame.rides else fill.fraction_with(cargo, trip)
        found = (max(worst, full), total + full, [*so_far, trip])
        if enters not in best or found < best[enters]:
            best[enters] = found
    return best[there[1]][2] if there[1] in best else None
