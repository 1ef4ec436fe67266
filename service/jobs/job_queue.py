"""The queue of jobs on PostgreSQL: a job says that a plan waits, and nothing more.

Whoever takes a job claims the plan whose turn it is. So a job that is lost, doubled or late costs
nothing but time, and `top_up` finds what was lost.
"""

from procrastinate import App, PsycopgConnector
from sqlalchemy import Connection, Engine, func, select, text

from service.storage.database import writing
from service.storage.postgresql import driver_arguments
from service.storage.tables import PlanRow
from service.storage.turns import is_due

QUEUE, TASK = "plans", "haulwright.solve"
_MOST_AT_ONCE = 100
_TOP_UP_LOCK = 4711_0002
_STALLED_SECONDS = 30

_DEFER = text(
    "SELECT procrastinate_defer_jobs_v1(ARRAY[ROW(:queue, :task, 0, NULL, NULL, "
    "jsonb_build_object('plan_id', CAST(:plan_id AS text)), NULL)"
    "::procrastinate_job_to_defer_v1])"
)
_WAITING_JOBS = text(
    "SELECT count(*) FROM procrastinate_jobs WHERE queue_name = :queue AND status = 'todo'"
)
_FORGET_STALLED = text(
    "DELETE FROM procrastinate_jobs j WHERE j.queue_name = :queue AND j.status = 'doing' AND NOT "
    "EXISTS (SELECT 1 FROM procrastinate_workers w WHERE w.id = j.worker_id AND w.last_heartbeat > "
    "now() - make_interval(secs => :stalled))"
)


def job_app(address: str) -> App:
    """The application of the queue library on a database."""
    return App(connector=PsycopgConnector(kwargs=driver_arguments(address)))


def enqueue(connection: Connection, plan_id: str) -> None:
    """Add a job for a plan, in the transaction that stores the plan."""
    connection.execute(_DEFER, {"queue": QUEUE, "task": TASK, "plan_id": plan_id})


def top_up(engine: Engine) -> int:
    """See that as many jobs wait as plans do, and forget jobs of dead workers; gives those added.

    A plan that is handed back or rescued gets its job here, and so does one whose job was lost.
    """
    due = select(PlanRow.plan_id).where(PlanRow.state == "queued", is_due(PlanRow))
    with writing(engine) as connection:
        mine = select(func.pg_try_advisory_xact_lock(_TOP_UP_LOCK))
        if not connection.execute(mine).scalar_one():
            return 0
        connection.execute(_FORGET_STALLED, {"queue": QUEUE, "stalled": _STALLED_SECONDS})
        jobs = connection.execute(_WAITING_JOBS, {"queue": QUEUE}).scalar_one()
        missing = connection.execute(
            due.order_by(PlanRow.created_at_ms).offset(jobs).limit(_MOST_AT_ONCE)
        ).scalars()
        added = list(missing)
        for plan_id in added:
            enqueue(connection, plan_id)
    return len(added)
