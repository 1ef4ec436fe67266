"""Jobs that stand in for the solver, each with one way to behave or misbehave."""

import ctypes
import json
import os
import resource
import signal
import sys
import time
from pathlib import Path

from service.jobs.child_process import JobLimits, Talk

PROGRESS = b'{"stage": "packing", "peak": 1.0, "bound": 0.5, "seconds": 0.1}'


def obey(request_document: bytes, limits: JobLimits, talk: Talk) -> bytes:
    """Do what the request's member "order" says."""
    orders = {
        "answer": answer,
        "sleep": sleep,
        "hang": hang,
        "work": work,
        "crash": crash,
        "fault": fault,
        "eat_memory": eat_memory,
        "abort_like_cpp": abort_like_cpp,
        "tell": tell_progress,
        "shout": shout,
        "until_finish": until_finish,
        "given": given,
        "cpu_limit": cpu_limit,
    }
    request = json.loads(request_document)
    return orders[request.get("order", "answer")](request, talk)


def hang_always(_document: bytes, _limits: JobLimits, talk: Talk) -> bytes:
    """Never answer, whatever is asked."""
    return hang({}, talk)


def refuse(_request_document: bytes, _limits: JobLimits, _talk: Talk) -> bytes:
    """Refuse, whatever is asked."""
    return b"refused"


def tell_environment(_request_document: bytes, _limits: JobLimits, _talk: Talk) -> bytes:
    """Answer with the environment of the child, and with that of its fork server."""
    parent = Path(f"/proc/{os.getppid()}/environ").read_bytes().decode().split("\0")
    return json.dumps([dict(os.environ), parent]).encode()


def answer(request: dict, talk: Talk) -> bytes:
    """Answer at once with the process it ran in."""
    return json.dumps({"outcome": "solved", "process": os.getpid()}).encode()


def cpu_limit(request: dict, talk: Talk) -> bytes:
    """Answer with the CPU time that the process may use [s]."""
    return str(resource.getrlimit(resource.RLIMIT_CPU)[1]).encode()


def sleep(request: dict, talk: Talk) -> bytes:
    """Take the requested time, then answer."""
    time.sleep(request["seconds"])
    return answer(request, talk)


def work(request: dict, talk: Talk) -> bytes:
    """Use the requested processor time on the one processor that is named, then answer."""
    os.sched_setaffinity(0, {request["processor"]})
    while time.process_time() < request["seconds"]:
        pass
    return answer(request, talk)


def hang(request: dict, talk: Talk) -> bytes:
    """Never answer, deaf to every signal that can be ignored."""
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        signal.signal(number, signal.SIG_IGN)
    while True:
        time.sleep(60)


def crash(request: dict, talk: Talk) -> bytes:
    """Die as native code does on a bad pointer."""
    os.kill(os.getpid(), signal.SIGSEGV)
    return b""


def fault(request: dict, talk: Talk) -> bytes:
    """Raise as a programming mistake does."""
    raise ZeroDivisionError("a planted fault")


def eat_memory(request: dict, talk: Talk) -> bytes:
    """Ask for memory without end."""
    eaten = []
    while True:
        eaten.append(bytearray(16 * 1024 * 1024))


def abort_like_cpp(request: dict, talk: Talk) -> bytes:
    """Die as C++ code does that runs out of memory."""
    sys.stderr.write("terminate called after throwing an instance of 'std::bad_alloc'\n")
    sys.stderr.flush()
    ctypes.CDLL(None).abort()
    return b""


def tell_progress(request: dict, talk: Talk) -> bytes:
    """Tell progress, wait long enough for it to be stored, and answer."""
    talk.tell(PROGRESS)
    time.sleep(request["seconds"])
    return answer(request, talk)


def shout(request: dict, talk: Talk) -> bytes:
    """Write a great deal to standard error, then answer."""
    sys.stderr.write("x" * 1_000_000)
    sys.stderr.flush()
    return answer(request, talk)


def until_finish(request: dict, talk: Talk) -> bytes:
    """Work until the caller wants what there is, then answer."""
    while not talk.should_finish():
        time.sleep(0.02)
    return json.dumps({"outcome": "solved", "finished_early": True}).encode()


def given(request: dict, talk: Talk) -> bytes:
    """Answer with the outcome that the request has; where it waits, tell progress until asked."""
    if request.get("waits"):
        talk.tell(PROGRESS)
    while request.get("waits") and not talk.should_finish():
        time.sleep(0.02)
    return json.dumps(request["given"]).encode()
