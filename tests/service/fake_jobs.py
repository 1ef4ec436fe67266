"""Jobs that stand in for the solver, each with one way to behave or misbehave."""

import ctypes
import json
import os
import signal
import sys
import time

from service.jobs.child_process import JobLimits, TellProgress


def obey(request_document: bytes, limits: JobLimits, tell: TellProgress) -> bytes:
    """Do what the request's member "order" says."""
    orders = {
        "answer": answer,
        "sleep": sleep,
        "hang": hang,
        "crash": crash,
        "fault": fault,
        "eat_memory": eat_memory,
        "abort_like_cpp": abort_like_cpp,
        "tell": tell_progress,
        "shout": shout,
    }
    request = json.loads(request_document)
    return orders[request.get("order", "answer")](request, tell)


def answer(request: dict, tell: TellProgress) -> bytes:
    """Answer at once with the process it ran in."""
    return json.dumps({"outcome": "solved", "process": os.getpid()}).encode()


def sleep(request: dict, tell: TellProgress) -> bytes:
    """Take the requested time, then answer."""
    time.sleep(request["seconds"])
    return answer(request, tell)


def hang(request: dict, tell: TellProgress) -> bytes:
    """Never answer, deaf to every signal that can be ignored."""
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        signal.signal(number, signal.SIG_IGN)
    while True:
        time.sleep(60)


def crash(request: dict, tell: TellProgress) -> bytes:
    """Die as native code does on a bad pointer."""
    os.kill(os.getpid(), signal.SIGSEGV)
    return b""


def fault(request: dict, tell: TellProgress) -> bytes:
    """Raise as a programming mistake does."""
    raise ZeroDivisionError("a planted fault")


def eat_memory(request: dict, tell: TellProgress) -> bytes:
    """Ask for memory without end."""
    eaten = []
    while True:
        eaten.append(bytearray(16 * 1024 * 1024))


def abort_like_cpp(request: dict, tell: TellProgress) -> bytes:
    """Die as C++ code does that runs out of memory."""
    sys.stderr.write("terminate called after throwing an instance of 'std::bad_alloc'\n")
    sys.stderr.flush()
    ctypes.CDLL(None).abort()
    return b""


def tell_progress(request: dict, tell: TellProgress) -> bytes:
    """Tell progress, wait long enough for it to be stored, and answer."""
    tell(b'{"peak": 1}')
    time.sleep(request["seconds"])
    return answer(request, tell)


def shout(request: dict, tell: TellProgress) -> bytes:
    """Write a great deal to standard error, then answer."""
    sys.stderr.write("x" * 1_000_000)
    sys.stderr.flush()
    return answer(request, tell)
