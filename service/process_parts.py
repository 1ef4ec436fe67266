"""Parts of the service that more than one of its programs puts together from the settings."""

import json
from collections.abc import Callable

from sqlalchemy import Engine as Database

from service.jobs.child_process import JobLimits
from service.jobs.desk_job import desk_job
from service.jobs.desks import Desks, DesksInline, DesksInProcesses
from service.jobs.launcher import Launcher
from service.jobs.machine_share import MachineShare
from service.jobs.supervisor import Supervisor
from service.jobs.work import PlanWork, WorkSettings
from service.reports.made_with import versions_of_today
from service.settings import Settings
from service.storage.leases import PlanQueue
from service.storage.webhooks import WebhookOutbox
from service.storage.wishes import Wishes
from service.webhooks.courier import Courier
from service.webhooks.sending import Sender
from service.wiring import Translation

_RENEWALS_PER_LEASE = 3
_BYTES_PER_MIB = 1024 * 1024


def open_queue(database: Database, settings: Settings) -> PlanQueue:
    """The queue of a process that solves, which writes today's versions beside each outcome."""
    lease_ms = round(settings.lease_seconds * 1000)
    return PlanQueue(database, lease_ms=lease_ms, made_with=versions_of_today())


def open_courier(database: Database, settings: Settings) -> Courier:
    """What sends webhooks from a process that solves."""
    seconds = settings.webhook_seconds
    sender = Sender(any_address=settings.webhook_targets == "any", limit_seconds=seconds)
    return Courier(
        WebhookOutbox(database), sender, settings.webhook_secrets(), limit_seconds=seconds
    )


def open_desks(settings: Settings, translation: Translation, share: MachineShare) -> Desks:
    """The desks of a process that answers callers, and shares the machine with solves."""
    if translation.desk_job is None:
        job = desk_job(
            translation.read_plan_request,
            translation.judge_plan,
            translation.state_requirements,
            translation.order_replan,
        )
        return DesksInline(job)
    limits = JobLimits(settings.desk_seconds, settings.desk_memory_mb * _BYTES_PER_MIB)
    launcher = Launcher(translation.desk_job, at_a_desk=True)
    return DesksInProcesses(launcher, limits, desks=settings.desks, share=share)


def supervisor(
    settings: Settings, launcher: Launcher, *, job: int = 0, share: MachineShare | None = None
) -> Supervisor:
    """What runs one of a launcher's jobs with the solver, within the limits of the settings.

    With a share of the machine, nobody waits for it, and it stands back for callers.
    """
    return Supervisor(
        launcher,
        memory_bytes=settings.solve_memory_mb * _BYTES_PER_MIB,
        grace_seconds=settings.solve_grace_seconds,
        job=job,
        share=share,
    )


def plan_work(
    settings: Settings,
    solves: Supervisor,
    queue: PlanQueue,
    wishes: Wishes,
    *,
    on_finished: Callable[[str], None],
) -> PlanWork:
    """The work of a process that solves."""
    how = WorkSettings(
        renew_seconds=settings.lease_seconds / _RENEWALS_PER_LEASE,
        outcome_kind=lambda outcome: str(json.loads(outcome)["outcome"]),
    )
    return PlanWork(queue, wishes, solves, how, on_finished=on_finished)
