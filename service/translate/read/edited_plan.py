"""An edited plan of the wire, read as a plan of the solver."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from api_schema.edited_plan import EditedFlight, EditedLoad, EditedPlan, EditedStowed, EditedTrip
from service.errors import Fault
from service.translate.read.near_names import unknown_id_words
from service.translate.read.notes import MOST_ADVISED
from solver.checker.ledger.facts import Facts, Weight
from solver.plan import FlightLoad, Load, NightStock, Plan, Stowed, TripLoads

_Weights = Mapping[str, Weight]
_NOTHING: Weight = (0, 0)


class PlanReader:
    """Reads the plan of one problem; what is not said of masses and water, the facts say."""

    def __init__(self, facts: Facts, faults: list[Fault]) -> None:
        self._facts = facts
        self._faults = faults
        self._people = {person.person_id: person for person in facts.problem.roster}
        self._nights = {night.day: night for night in facts.timeline.nights}
        self._trips = {(t.day, t.step, t.from_place, t.to_place): t for t in facts.timeline.trips}
        self._known = dict.fromkeys(sorted(facts.units.keys() | facts.worn))
        self._places = [place.place_id for place in facts.problem.route.places]
        self._sleds = [sled.sled_id for sled in facts.problem.sleds]
        self._flights = [flight.flight_id for flight in facts.problem.flights]
        self._by_night: dict[int, _Weights] = {}

    def plan(self, edited: EditedPlan) -> Plan:
        """The whole plan."""
        return Plan(
            trips=tuple(self._trip(t, f"/plan/trips/{i}") for i, t in enumerate(edited.trips)),
            flights=tuple(
                self._flight(flight, f"/plan/flights/{i}")
                for i, flight in enumerate(edited.flights)
            ),
            stock=tuple(
                NightStock(
                    entry.day,
                    self._id(f"/plan/stock/{i}/place", "place", entry.place, self._places),
                    self._units(entry.units, f"/plan/stock/{i}/units", self._weights(entry.day)),
                )
                for i, entry in enumerate(edited.stock)
            ),
        )

    def _id(self, pointer: str, what: str, given: str, known: Collection[str]) -> str:
        """The id as it was given, noted as a fault where the request has no such thing."""
        if given not in known:
            words = f"The request has no such {what}."
            if len(self._faults) < MOST_ADVISED:
                words = unknown_id_words(what, given, known)
            self._faults.append(Fault(pointer, "unknown_id", words))
        return given

    def _flight(self, flight: EditedFlight, pointer: str) -> FlightLoad:
        return FlightLoad(
            self._id(f"{pointer}/flight_id", "flight", flight.flight_id, self._flights),
            tuple(
                self._id(f"{pointer}/people/{i}/person_id", "person", one.person_id, self._people)
                for i, one in enumerate(flight.people)
            ),
            self._units(flight.units, f"{pointer}/units", self._flying()),
        )

    def _trip(self, trip: EditedTrip, pointer: str) -> TripLoads:
        weights = self._weights_on(trip)
        return TripLoads(
            day=trip.day,
            step=trip.step,
            from_place=self._id(f"{pointer}/from", "place", trip.from_, self._places),
            to_place=self._id(f"{pointer}/to", "place", trip.to, self._places),
            loads=tuple(
                self._load(trip.day, load, f"{pointer}/loads/{i}", weights)
                for i, load in enumerate(trip.loads)
            ),
        )

    def _load(self, day: int, load: EditedLoad, pointer: str, weights: _Weights) -> Load:
        if load.sled_id is not None:
            self._id(f"{pointer}/sled_id", "sled", load.sled_id, self._sleds)
        return Load(
            person_id=self._id(f"{pointer}/person_id", "person", load.person_id, self._people),
            water_g=_given(load.water_kg, lambda: self._facts.waters.get((load.person_id, day), 0)),
            lunch_g=_given(load.lunch_kg, lambda: self._lunch_g(day, load)),
            pack=self._units(load.pack, f"{pointer}/pack", weights),
            sled_id=load.sled_id,
            sled=self._units(load.sled, f"{pointer}/sled", weights),
        )

    def _lunch_g(self, day: int, load: EditedLoad) -> int:
        """The lunch that came out of last night's set, or from home on day 1 [g]."""
        problem, person = self._facts.problem, self._people.get(load.person_id)
        if person is None:
            return 0
        if day == 1:
            return person.first_lunch_g
        night = self._nights.get(day - 1)
        if night is None:
            return 0
        group = problem.cook_group(person.cook_group_id)
        set_id = group.set_id_on(night.day, night.place_of(person.person_id))
        return problem.night_set(group.cook_group_id, set_id).lunch_g

    def _units(
        self, units: list[EditedStowed], pointer: str, weights: _Weights
    ) -> tuple[Stowed, ...]:
        """The lines of a load or store; a count of 0 is how an editor takes something off."""
        return tuple(
            self._stowed(unit, f"{pointer}/{i}", weights)
            for i, unit in enumerate(units)
            if unit.count
        )

    def _stowed(self, unit: EditedStowed, pointer: str, weights: _Weights) -> Stowed:
        if unit.unit_id not in weights:
            self._id(f"{pointer}/unit_id", "unit", unit.unit_id, self._known)
        mass_g, volume_ml = weights.get(unit.unit_id, _NOTHING)
        return Stowed(
            unit.unit_id,
            unit.count,
            _given(unit.each_kg, lambda: mass_g),
            _given(unit.each_l, lambda: volume_ml),
        )

    def _weights(self, day: int) -> _Weights:
        """What one of each unit weighs and takes after a day's night, or the last one [g, mL]."""
        night = min(day, len(self._facts.problem.calendar.days) - 1)
        if night not in self._by_night:
            self._by_night[night] = self._facts.weights(night)
        return self._by_night[night]

    def _weights_on(self, edited: EditedTrip) -> _Weights:
        """The same on a trip, on which what is in use adds nothing [g, mL]."""
        weights = self._weights(edited.day - 1)
        trip = self._trips.get((edited.day, edited.step, edited.from_, edited.to))
        if trip is None:
            return weights
        used = (i for i in self._facts.problem.gear if i.in_use_on and self._facts.in_use(i, trip))
        return {**weights, **{item.unit_id: _NOTHING for item in used}}

    def _flying(self) -> _Weights:
        """The same in an aircraft, where nothing is in use, outside a pack, or on a sled."""
        problem = self._facts.problem
        items = {item.unit_id: (item.mass_g, item.volume_ml) for item in problem.gear}
        sleds = {f"sled/{sled.sled_id}": (sled.tare_g, 0) for sled in problem.sleds}
        last = len(problem.calendar.days) - 1
        return {**self._weights(0), **self._weights(last), **items, **sleds}


def _given(kilograms: float | None, otherwise: Callable[[], int]) -> int:
    """What is given, in grams, or litres in millilitres, to the nearest; else what is known."""
    return otherwise() if kilograms is None else round(kilograms * 1000)
