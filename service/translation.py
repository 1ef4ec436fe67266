"""The translation that the service runs with; tests of the service alone bring another one."""

from service.jobs.desk_child import judge_plan, order_replan, read_order, state_requirements
from service.wiring import Translation

TRANSLATION = Translation(
    read_plan_request=read_order,
    judge_plan=judge_plan,
    state_requirements=state_requirements,
    order_replan=order_replan,
    # Named, not imported: the web process never loads the solver.
    solve_job="service.jobs.stress_child:do_stored_work",
    desk_job="service.jobs.desk_child:work_at_desk",
)
