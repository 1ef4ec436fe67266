"""The register of rules on the request alone: calendar, people, gear, food and places.

No plan changes what these rules find, so they are asked once, before the search. A hard one
that is broken is a refusal, told in words with what would be allowed instead.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.facts import Facts
from solver.checker.request_rules.base_wait_planned import base_wait_planned
from solver.checker.request_rules.big_step_prepared import big_step_prepared
from solver.checker.request_rules.cache_deep_enough import cache_deep_enough
from solver.checker.request_rules.cache_facts_missing import cache_facts_missing
from solver.checker.request_rules.cache_labelled import cache_labelled
from solver.checker.request_rules.cache_marked import cache_marked
from solver.checker.request_rules.cache_may_melt_out import cache_may_melt_out
from solver.checker.request_rules.cache_place_safe import cache_place_safe
from solver.checker.request_rules.cache_pole_tall_enough import cache_pole_tall_enough
from solver.checker.request_rules.cargo_lengths_told import cargo_lengths_told
from solver.checker.request_rules.carried_high_first import carried_high_first
from solver.checker.request_rules.descent_reserve_planned import descent_reserve_planned
from solver.checker.request_rules.flying_mass_known import flying_mass_known
from solver.checker.request_rules.flying_mass_weighed import flying_mass_weighed
from solver.checker.request_rules.hard_days_limited import hard_days_limited
from solver.checker.request_rules.leg_hours_not_told import leg_hours_not_told
from solver.checker.request_rules.payload_for_people import payload_for_people
from solver.checker.request_rules.seats_for_all import seats_for_all
from solver.checker.request_rules.sled_lowered_on_steep import sled_lowered_on_steep
from solver.checker.request_rules.sled_slope_limited import sled_slope_limited
from solver.checker.request_rules.sled_slope_not_told import sled_slope_not_told
from solver.checker.request_rules.sleeping_height_gain_held import sleeping_height_gain_held
from solver.checker.request_rules.storm_reserve_planned import storm_reserve_planned
from solver.checker.request_rules.summit_times_kept import summit_times_kept
from solver.checker.request_rules.summit_times_not_told import summit_times_not_told
from solver.checker.request_rules.travel_hours_limited import travel_hours_limited
from solver.checker.request_rules.weather_days_enough import weather_days_enough
from solver.plan import Finding

RequestRule = Callable[[Facts], Iterator[Finding]]

REQUEST_RULES: tuple[tuple[str, RequestRule], ...] = (
    ("sleeping_height_gain_held", sleeping_height_gain_held),
    ("big_step_prepared", big_step_prepared),
    ("carried_high_first", carried_high_first),
    ("hard_days_limited", hard_days_limited),
    ("summit_times_kept", summit_times_kept),
    ("summit_times_not_told", summit_times_not_told),
    ("travel_hours_limited", travel_hours_limited),
    ("leg_hours_not_told", leg_hours_not_told),
    ("weather_days_enough", weather_days_enough),
    ("sled_slope_limited", sled_slope_limited),
    ("sled_lowered_on_steep", sled_lowered_on_steep),
    ("sled_slope_not_told", sled_slope_not_told),
    ("storm_reserve_planned", storm_reserve_planned),
    ("descent_reserve_planned", descent_reserve_planned),
    ("base_wait_planned", base_wait_planned),
    ("cache_deep_enough", cache_deep_enough),
    ("cache_place_safe", cache_place_safe),
    ("cache_may_melt_out", cache_may_melt_out),
    ("cache_marked", cache_marked),
    ("cache_pole_tall_enough", cache_pole_tall_enough),
    ("cache_labelled", cache_labelled),
    ("cache_facts_missing", cache_facts_missing),
    ("seats_for_all", seats_for_all),
    ("flying_mass_known", flying_mass_known),
    ("flying_mass_weighed", flying_mass_weighed),
    ("payload_for_people", payload_for_people),
    ("cargo_lengths_told", cargo_lengths_told),
)
