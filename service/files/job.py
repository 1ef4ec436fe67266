"""The job of a child that reads one file: the file's path in, the answer or the faults out.

A file is read in a child with limits of time and memory, so that whatever is in it, the service
goes on.
"""

from __future__ import annotations

from pydantic import BaseModel

from service.errors import RequestFaults
from service.files.order import ANSWER, FAULTS, Order, faults_document, order_of
from service.files.read.gear_list import read_gear_list
from service.files.read.gpx_route import read_route
from service.files.read.limits import SHEET_BYTES
from service.files.read.roster import read_roster
from service.jobs.child_process import JobLimits, Talk


def read_file(order: bytes, _limits: JobLimits, _talk: Talk) -> bytes:
    """Read the file of an order."""
    try:
        return ANSWER + _answer(order_of(order)).model_dump_json().encode()
    except RequestFaults as error:
        return FAULTS + faults_document(error.faults)


def _answer(order: Order) -> BaseModel:
    if order.kind == "route":
        return read_route(order.path, order.file)
    with order.path.open("rb") as stream:
        # One byte more than is taken shows that there is more.
        content = stream.read(SHEET_BYTES + 1)
    read = read_gear_list if order.kind == "gear-list" else read_roster
    return read(content, order.file, order.sheet)
