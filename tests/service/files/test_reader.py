"""Files are read in a child, and whatever is in one, the reader answers or says what is wrong."""

import json
import signal
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from api_schema.examples import SMALLEST_GEAR_LIST, SMALLEST_ROSTER, SMALLEST_TRACK
from service.errors import Fault, FilePlace, RequestFaults, ServiceProblem
from service.files import reader as reader_module
from service.files.job import read_file
from service.files.order import ANSWER, FAULTS, Order, faults_document, faults_of, order_of
from service.files.reader import FileReader
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.supervisor import Broken, NotStarted, Supervisor
from service.pages import pdf_printer
from tests.service.processes import CALLER, RunningService, free_port, solving_under, until

LIMITS = JobLimits(wall_seconds=5, memory_bytes=2**30)


@pytest.fixture(scope="module")
def reader() -> Iterator[FileReader]:
    """A reader of one file at a time."""
    made = FileReader(at_once=1, grace_seconds=0.5)
    yield made
    made.close()


def written(folder: Path, text: str) -> Path:
    """A file with that text."""
    path = folder / "a.file"
    path.write_text(text, encoding="utf-8")
    return path


def test_orders_and_faults_come_through_as_they_were():
    """What the two processes say to each other is read as it was written."""
    order = Order("roster", Path("/a b"), "r.csv", "People")
    assert order_of(order.document()) == order
    faults = (
        Fault("", "no_unit", "Write a unit.", place=FilePlace("g.csv", None, 7, "C", "Mass")),
        Fault("", "bad", "x"),
    )
    assert faults_of(faults_document(faults)) == faults


@pytest.mark.parametrize(
    ("kind", "text", "member"),
    [
        ("gear-list", SMALLEST_GEAR_LIST, "gear"),
        ("roster", SMALLEST_ROSTER, "roster"),
        ("route", SMALLEST_TRACK, "route"),
    ],
)
def test_the_job_reads_each_kind(tmp_path, kind, text, member):
    """A gear list, a roster and a route give the member of a request."""
    document = read_file(Order(kind, written(tmp_path, text), "f").document(), LIMITS, SILENT)
    assert document[:1] == ANSWER
    assert json.loads(document[1:])[member]


def test_the_job_gives_faults(tmp_path):
    """A file that cannot be read gives its faults with their places."""
    path = written(tmp_path, "Item,Mass\nTent,3.9\n")
    document = read_file(Order("gear-list", path, "g.csv").document(), LIMITS, SILENT)
    assert document[:1] == FAULTS
    assert [fault.place.row for fault in faults_of(document[1:])] == [2]


def test_the_reader_answers_from_a_child(reader, tmp_path):
    """A file in order gives JSON, another one its faults, one after the other."""
    good = Order("roster", written(tmp_path, SMALLEST_ROSTER), "r.csv")
    assert json.loads(reader.read(good))["roster"][0]["person_id"] == "lead"
    bad = Order("roster", written(tmp_path, "Name\nLead\n"), "r.csv")
    with pytest.raises(RequestFaults) as caught:
        reader.read(bad)
    assert caught.value.faults[0].code == "missing_column"


def test_a_child_that_takes_too_long_is_ended(tmp_path):
    """The time limit holds, and the caller hears that the file is too much."""
    made = FileReader(at_once=1, grace_seconds=0.0, seconds=0.001)
    try:
        with pytest.raises(ServiceProblem) as caught:
            made.read(Order("roster", written(tmp_path, SMALLEST_ROSTER), "r.csv"))
    finally:
        made.close()
    assert caught.value.code == "file_too_costly"


def test_a_fault_of_ours_is_told_as_one(reader, tmp_path):
    """A file that is not there any more is no fault of the caller."""
    with pytest.raises(ServiceProblem) as caught:
        reader.read(Order("roster", tmp_path / "gone", "r.csv"))
    assert caught.value.code == "internal_error"


@pytest.mark.parametrize(
    ("end", "code"),
    [
        (NotStarted(), "readers_busy"),
        (Broken("solver_error", worth_retrying=False), "internal_error"),
    ],
)
def test_a_child_that_cannot_start_is_no_fault_of_the_file(monkeypatch, end, code):
    """Where no child could be started the file may be sent again; what broke one is our fault."""
    monkeypatch.setattr(Supervisor, "run", lambda *_, **__: end)
    with pytest.raises(ServiceProblem) as refused:
        FileReader(at_once=1, grace_seconds=0.0).read(Order("roster", Path("/a"), "r.csv"))
    assert refused.value.code == code
    assert ("Retry-After" in refused.value.headers) == (code == "readers_busy")


def held_by(monkeypatch, ask, *, most: int) -> tuple[int, list[str]]:
    """Forty ask for something slow: how many it holds, at last `most`, and what others heard."""
    go, heard = threading.Event(), []
    monkeypatch.setattr(Supervisor, "run", lambda *_, **__: go.wait(20) and NotStarted())

    def one() -> None:
        with pytest.raises(ServiceProblem) as refused:
            ask()
        heard.append(refused.value.code)

    threads = [threading.Thread(target=one) for _ in range(40)]
    for thread in threads:
        thread.start()
    until = time.monotonic() + 5
    while sum(thread.is_alive() for thread in threads) > most and time.monotonic() < until:
        time.sleep(0.01)
    held, told = sum(thread.is_alive() for thread in threads), [*heard]
    go.set()
    for thread in threads:
        thread.join(20)
    return held, told


@pytest.mark.parametrize("others", [0, 2])
def test_a_reader_that_is_closed_ends_what_it_reads(monkeypatch, others):
    """A file that is being read, and those that wait for their turn, are refused within moments."""
    monkeypatch.setattr(reader_module, "JOB", "tests.service.fake_jobs:hang_always")
    made = FileReader(at_once=1, grace_seconds=0.5)
    order = Order("roster", Path("/a"), "r.csv")
    assert ended_by(made, lambda: made.read(order), others) == ["shutting_down"] * (1 + others)
    with pytest.raises(ServiceProblem) as refused:
        made.read(order)
    assert (refused.value.code, refused.value.headers["Retry-After"]) == ("shutting_down", "5")


def test_a_printer_that_is_closed_ends_what_it_prints(monkeypatch):
    """Pages that are being printed are refused within moments, and so are later ones."""
    monkeypatch.setattr(pdf_printer, "can_print", lambda: True)
    monkeypatch.setattr(pdf_printer, "JOB", "tests.service.fake_jobs:hang_always")
    made = pdf_printer.PdfPrinter(grace_seconds=0.5)
    assert ended_by(made, lambda: made.print_pdf(b"<p>a"), 1) == ["shutting_down"] * 2


def ended_by(made, ask, others: int) -> list[str]:
    """What one who is served and others who wait hear when what serves them is closed."""
    begun, heard = threading.Event(), []
    run = made._supervisor.run

    def noted(*given, **named):
        begun.set()
        return run(*given, **named)

    made._supervisor.run = noted

    def one() -> None:
        with pytest.raises(ServiceProblem) as refused:
            ask()
        heard.append(refused.value.code)

    threads = [threading.Thread(target=one, daemon=True) for _ in range(1 + others)]
    for thread in threads:
        thread.start()
    assert begun.wait(20)
    time.sleep(0.5)
    made.close()
    for thread in threads:
        thread.join(4)
    return heard


def test_a_service_that_stops_lets_no_file_keep_it(tmp_path):
    """It ends within its time of grace, and whoever sent the file hears to come again."""
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(tmp_path / "plans.sqlite3"),
            "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
        },
        log=tmp_path / "log",
        module="tests.service.serve_hanging_files",
    )
    running.start()
    heard = []

    def send() -> None:
        address = f"{running.url}/v1/files/roster"
        kind = {"Content-Type": "text/csv"}
        heard.append(CALLER.post(address, content=SMALLEST_ROSTER, headers=kind, timeout=60))

    sending = threading.Thread(target=send)
    try:
        sending.start()
        until(lambda: len(solving_under(running.process.pid, "hang_always")) == 1)
        assert running.end(signal.SIGTERM) < 4.0
        sending.join(10)
    finally:
        running.process.kill()
    (answer,) = heard
    assert (answer.status_code, answer.json()["code"]) == (503, "shutting_down")
    assert answer.headers["Retry-After"] == "5"


def test_many_files_at_once_do_not_hold_all_threads(monkeypatch):
    """Of forty files two are read and four wait; the others are refused at once."""
    made = FileReader(at_once=2, grace_seconds=0.0)
    order = Order("roster", Path("/a"), "r.csv")
    assert held_by(monkeypatch, lambda: made.read(order), most=6) == (6, ["readers_busy"] * 34)


def test_many_printed_pages_at_once_do_not_hold_all_threads(monkeypatch):
    """Of forty one is printed and four wait; the others are refused at once."""
    monkeypatch.setattr(pdf_printer, "can_print", lambda: True)
    made = pdf_printer.PdfPrinter(grace_seconds=0.0)
    held = held_by(monkeypatch, lambda: made.print_pdf(b"<p>a"), most=5)
    assert held == (5, ["readers_busy"] * 35)
