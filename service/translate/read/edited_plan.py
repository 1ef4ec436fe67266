"""An edited plan of the wire, read as a plan of the solver."""

from __future__ import annotations

from api_schema.edited_plan import EditedLoad, EditedPlan, EditedStowed, EditedTrip
from service.errors import Fault
from solver.plan import FlightLoad, Load, NightStock, Plan, Stowed, TripLoads
from solver.problem import Problem, Timeline
from solver.quantities import fuel_mass_nearest

_Sizes = dict[str, tuple[int | None, int | None]]


class PlanReader:
    """Reads the plan of one problem."""

    def __init__(self, problem: Problem, timeline: Timeline, faults: list[Fault]) -> None:
        self._problem = problem
        self._faults = faults
        self._people = {person.person_id: person for person in problem.roster}
        self._nights = {night.day: night for night in timeline.nights}
        self._sizes = _sizes(problem)
        self._flying_sizes = _flying_sizes(problem, self._sizes)

    def plan(self, edited: EditedPlan) -> Plan:
        """The whole plan."""
        return Plan(
            trips=tuple(self._trip(t, f"/plan/trips/{i}") for i, t in enumerate(edited.trips)),
            flights=tuple(
                FlightLoad(
                    flight.flight_id,
                    tuple(flyer.person_id for flyer in flight.people),
                    self._units(flight.units, f"/plan/flights/{i}/units", self._flying_sizes),
                )
                for i, flight in enumerate(edited.flights)
            ),
            stock=tuple(
                NightStock(
                    entry.day, entry.place, self._units(entry.units, f"/plan/stock/{i}/units")
                )
                for i, entry in enumerate(edited.stock)
            ),
        )

    def _trip(self, trip: EditedTrip, pointer: str) -> TripLoads:
        return TripLoads(
            day=trip.day,
            step=trip.step,
            from_place=trip.from_,
            to_place=trip.to,
            loads=tuple(
                self._load(trip.day, load, f"{pointer}/loads/{i}")
                for i, load in enumerate(trip.loads)
            ),
        )

    def _load(self, day: int, load: EditedLoad, pointer: str) -> Load:
        return Load(
            person_id=load.person_id,
            water_g=self._water_g(load) if load.water_kg is None else _grams(load.water_kg),
            lunch_g=self._lunch_g(day, load) if load.lunch_kg is None else _grams(load.lunch_kg),
            pack=self._units(load.pack, f"{pointer}/pack"),
            sled_id=load.sled_id,
            sled=self._units(load.sled, f"{pointer}/sled"),
        )

    def _water_g(self, load: EditedLoad) -> int:
        person = self._people.get(load.person_id)
        return 0 if person is None else person.water_g

    def _lunch_g(self, day: int, load: EditedLoad) -> int:
        """The lunch that came out of last night's set, or from home on day 1 [g]."""
        person = self._people.get(load.person_id)
        if person is None:
            return 0
        if day == 1:
            return person.first_lunch_g
        night = self._nights.get(day - 1)
        if night is None:
            return 0
        group = self._problem.cook_group(person.cook_group_id)
        set_id = group.set_id_at(night.place_of(person.person_id))
        return self._problem.night_set(group.cook_group_id, set_id).lunch_g

    def _units(
        self, units: list[EditedStowed], pointer: str, sizes: _Sizes | None = None
    ) -> tuple[Stowed, ...]:
        """The lines of a load or store; a count of 0 is how an editor takes something off."""
        known = self._sizes if sizes is None else sizes
        return tuple(
            self._stowed(unit, f"{pointer}/{i}", known)
            for i, unit in enumerate(units)
            if unit.count
        )

    def _stowed(self, unit: EditedStowed, pointer: str, sizes: _Sizes) -> Stowed:
        mass_g, volume_ml = sizes.get(unit.unit_id, (None, None))
        if unit.each_kg is not None:
            mass_g = _grams(unit.each_kg)
        if unit.each_l is not None:
            volume_ml = _grams(unit.each_l)
        for field, value in (("each_kg", mass_g), ("each_l", volume_ml)):
            if value is None:
                self._faults.append(
                    Fault(
                        f"{pointer}/{field}",
                        "missing",
                        "The request alone does not settle this unit. Give each_kg and each_l.",
                    )
                )
        return Stowed(unit.unit_id, unit.count, mass_g or 0, volume_ml or 0)


def _grams(kilograms: float) -> int:
    """Kilograms to grams, or litres to millilitres, to the nearest."""
    return round(kilograms * 1000)


def _flying_sizes(problem: Problem, sizes: _Sizes) -> _Sizes:
    """The same in an aircraft, where nothing is in use, outside a pack, or on a sled [g, mL]."""
    items: _Sizes = {item.unit_id: (item.mass_g, item.volume_ml) for item in problem.gear}
    sleds: _Sizes = {f"sled/{sled.sled_id}": (sled.tare_g, 0) for sled in problem.sleds}
    return sizes | items | sleds


def _sizes(problem: Problem) -> _Sizes:
    """Mass and volume of one of each unit that is the same all through the trip [g, mL]."""
    sizes: _Sizes = {
        item.unit_id: (item.mass_g, item.packed_volume_ml)
        for item in problem.gear
        if not item.in_use_on
    }
    for night_set in problem.night_sets:
        bag_g = night_set.gross_g * night_set.sets_per_bag
        sizes[night_set.unit_id] = (bag_g, night_set.volume_ml * night_set.sets_per_bag)
    for group in problem.cook_groups:
        for container in group.containers:
            fuel_g = fuel_mass_nearest(
                volume_ml=container.content_ml, density_g_per_l=problem.fuel_density_g_per_l
            )
            sizes[container.unit_id] = (container.tare_g + fuel_g, container.volume_ml)
    return sizes
