"""The report after an expedition: sentences first, then planned against used, then the rates."""

from __future__ import annotations

from collections.abc import Iterator

from api_schema.common_answer import CautionAnswer
from api_schema.report_answer import TripReportAnswer
from service.translate.read.report_facts import ReadReport
from service.translate.write.after.days import (
    measured_trips,
    write_hours,
    write_loads,
    write_weighed,
)
from service.translate.write.after.fuel_rates import fuel_rates
from service.translate.write.after.mass_rates import mass_rates
from service.translate.write.after.nights import eaten_in_fact, write_nights
from service.translate.write.after.pace_rates import pace_rates
from service.translate.write.after.rates import Rates, next_request
from service.translate.write.after.say import say
from service.translate.write.after.stores import (
    ratio,
    write_containers,
    write_fuel,
    write_sets,
)


def write_report(report: ReadReport) -> TripReportAnswer:
    """The whole report."""
    line = report.line
    eaten, trips = eaten_in_fact(report), measured_trips(report)
    fuel, loads = write_fuel(report, eaten), write_loads(report)
    rates = Rates(report)
    fuel_rates(rates, fuel)
    pace_rates(rates, trips)
    mass_rates(rates)
    planned_kg = sum(one.planned_kg for one in loads)
    answer = TripReportAnswer(
        plan_id=line.plan_id,
        reference=line.outcome["reference"],
        first_plan_id=line.first_plan_id,
        say=[],
        nights=write_nights(report, eaten),
        night_sets=write_sets(report, eaten),
        containers=write_containers(report),
        fuel=fuel,
        hours=write_hours(trips),
        loads=loads,
        loads_ratio=ratio(sum(one.weighed_kg for one in loads), planned_kg) if loads else None,
        weighed=write_weighed(report),
        counted_otherwise=list(_otherwise(report)),
        rates=rates.found,
        next_request=next_request(rates.found, line.request),
        not_given=rates.not_given,
        remarks=report.asked.remarks,
        cautions=[CautionAnswer.model_validate(one) for one in line.outcome["cautions"]],
    )
    return answer.model_copy(update={"say": list(say(answer))})


def _otherwise(report: ReadReport) -> Iterator[str]:
    for unit_id, number in sorted(report.on_the_way.otherwise.items()):
        word = "more" if number > 0 else "fewer"
        yield f"{abs(number)} {word} of {unit_id} were counted on the way than planned."
    for unit_id in report.containers():
        if report.opened_gone(unit_id):
            yield (
                f"{report.opened_gone(unit_id)} opened of {unit_id} were lost. What was left in "
                "them counts as burnt, unless it is in `spilt`."
            )
