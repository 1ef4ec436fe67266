"""A flood of one caller beside a few requests of another, who comes from another address."""

import asyncio

from tests.reliability.open_loop import Caller, Heard, Request

QUIET_A_SECOND = 10.0
_QUIET_ADDRESS = "127.0.0.2"


async def beside_flood(
    port: int, request: Request, *, a_second: float, seconds: float
) -> tuple[Heard, Heard]:
    """What a flood of so many a second is answered for so long [s], and what the other caller is.

    The other caller begins half a second after the flood.
    """
    loud, quiet = Caller(port), Caller(port, address=_QUIET_ADDRESS)

    async def later() -> Heard:
        await asyncio.sleep(0.5)
        return await quiet.flood(request, a_second=QUIET_A_SECOND, seconds=seconds - 0.5)

    heard = await asyncio.gather(loud.flood(request, a_second=a_second, seconds=seconds), later())
    await loud.close()
    await quiet.close()
    return heard[0], heard[1]


def is_let_in(quiet: Heard) -> bool:
    """Whether nobody of the other caller was refused or left without an answer."""
    return quiet.counts().keys() == {202}
