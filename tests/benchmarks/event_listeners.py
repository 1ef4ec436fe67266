"""Prints the processor time that listeners to events cost the service while nothing happens.

Run it with `python -m tests.benchmarks.event_listeners [LISTENERS] [PLANS] [SECONDS]`. The
listeners come from several addresses of this machine and follow plans that wait or run. What a
listener costs when it comes is left out: the time is taken once all of them are there.
"""

import asyncio
import contextlib
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.service.processes import RunningService, free_port

_OF_ONE_ADDRESS = 50
_COUNTED_FROM = 3.0
"""Time after which all listeners are there and the service is at rest again [s]."""


def processor_seconds(process: int) -> float:
    """What a process has used so far, its children left out [s]."""
    told = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(told[11]) + int(told[12])) / 100


async def listen(port: int, plan_id: str, address: str) -> None:
    """Follow one plan; raises where the answer is no stream."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port, local_addr=(address, 0))
    writer.write(
        f"GET /v1/plans/{plan_id}/events HTTP/1.1\r\nHost: localhost:{port}\r\n"
        "Accept: text/event-stream\r\n\r\n".encode()
    )
    first = await reader.readline()
    assert b" 200 " in first, first
    try:
        while await reader.read(4096):
            pass
    finally:
        writer.close()


async def measure(
    service: RunningService, plan_ids: list[str], listeners: int, seconds: int
) -> str:
    """What so many listeners cost the service, and what it uses without them."""
    port = int(service.environment["HAULWRIGHT_PORT"])
    quiet = processor_seconds(service.process.pid)
    await asyncio.sleep(seconds)
    quiet = processor_seconds(service.process.pid) - quiet
    tasks = []
    for n in range(listeners):
        address = f"127.0.0.{2 + n // _OF_ONE_ADDRESS}"
        tasks.append(asyncio.create_task(listen(port, plan_ids[n % len(plan_ids)], address)))
        await asyncio.sleep(0.01)
    await asyncio.sleep(_COUNTED_FROM)
    used = processor_seconds(service.process.pid)
    await asyncio.sleep(seconds)
    used = processor_seconds(service.process.pid) - used
    left = sum(task.done() for task in tasks)
    for task in tasks:
        task.cancel()
    for task in tasks:
        with contextlib.suppress(asyncio.CancelledError):
            await task
    return (
        f"{listeners} listeners, {len(plan_ids)} plans, {left} gone before the end: "
        f"{used:.2f} s of processor time in {seconds} s, {quiet:.2f} s without listeners"
    )


def main() -> None:
    """Start a service, and print one line."""
    listeners, plans, seconds = (*map(int, sys.argv[1:]), *(400, 1, 20)[len(sys.argv) - 1 :])
    with TemporaryDirectory() as folder:
        service = RunningService(
            environment={
                "HAULWRIGHT_PORT": str(free_port()),
                "HAULWRIGHT_DATABASE": str(Path(folder) / "plans.sqlite3"),
                "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
                "HAULWRIGHT_CONNECTION_LIMIT": str(listeners + 100),
            },
            log=Path(folder) / "log",
        )
        service.start()
        try:
            asked = [service.ask(order="sleep", seconds=300, solve_seconds=300)]
            asked += [service.ask(order="sleep", seconds=300) for _ in range(plans - 1)]
            print(asyncio.run(measure(service, asked, listeners, seconds)))
        finally:
            service.process.kill()
            service.process.wait()


if __name__ == "__main__":
    main()
