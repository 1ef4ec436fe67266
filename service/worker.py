"""Runs a worker of the distributed engine: `python -m service.worker`, with the same settings.

It solves plans that API processes accept, on the database that HAULWRIGHT_DATABASE_URL names.
"""

import asyncio
import gc
import signal
import sys
from collections.abc import Callable
from pathlib import Path

# What is imported stays. A collector that looks at it costs a fifth of the start.
gc.disable()

from service.jobs.completions import Completions
from service.jobs.distributed import PoolWorker, QueueKeeper
from service.jobs.launcher import Launcher
from service.jobs.lookout import Lookout
from service.logs import start_logging
from service.opening import open_or_end
from service.process_parts import open_courier, open_queue, plan_work, supervisor
from service.settings import Settings, SettingsError, read_settings
from service.storage.database import open_database
from service.storage.plans import PlanStore
from service.storage.postgresql import secrets_of
from service.storage.wishes import Wishes
from service.translation import TRANSLATION
from service.wiring import Translation

gc.freeze()
gc.enable()

_LIFE_SECONDS = 1.0


def main(translation: Translation = TRANSLATION) -> None:
    """Work until a signal."""
    try:
        settings = read_settings()
    except SettingsError as error:
        sys.exit(str(error))
    start_logging(settings.log_format, *secrets_of(settings.database_url))
    if not settings.database_url:
        sys.exit("HAULWRIGHT_DATABASE_URL: a worker needs the address of the database.")
    open_or_end(settings).dispose()
    asyncio.run(work(settings, translation))


async def work(settings: Settings, translation: Translation) -> None:
    """Open the database, look out, and take jobs until SIGTERM or SIGINT."""
    database = await asyncio.to_thread(open_database, settings.database_url)
    queue = open_queue(database, settings)
    wishes = Wishes(database)
    courier = open_courier(database, settings)
    solves = supervisor(settings, Launcher(translation.solve_job))
    solving = plan_work(settings, solves, queue, wishes, on_finished=lambda _: courier.wake())
    worker = PoolWorker(settings.database_url, queue, solving, workers=settings.solve_workers)
    keeper = QueueKeeper(queue, database, lease_seconds=settings.lease_seconds)
    store = PlanStore(database, queue_limit=settings.queue_limit)
    lookout = Lookout(store, wishes, Completions(), keeper)
    loop = asyncio.get_running_loop()
    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, worker.stop)
    await asyncio.to_thread(lookout.start)
    courier.start()

    def can_work() -> bool:
        return lookout.storage_answers() and worker.takes_jobs()

    alive = asyncio.create_task(show_life(settings.alive_file, can_work))
    try:
        await worker.run()
    finally:
        alive.cancel()
        await asyncio.to_thread(courier.stop)
        await asyncio.to_thread(lookout.stop)
        database.dispose()


async def show_life(file: str, can_work: Callable[[], bool]) -> None:
    """Touch the file each second while this worker can work; without a name do nothing.

    It runs in the event loop that takes jobs, so that a loop that hangs lets the file grow old.
    """
    while file:
        if can_work():
            await asyncio.to_thread(Path(file).touch)
        await asyncio.sleep(_LIFE_SECONDS)


if __name__ == "__main__":
    main()
