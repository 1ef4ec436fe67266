"""A caller's own server, which hears webhooks and answers as it is told."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer


@dataclass
class Receiver:
    """What was heard, as headers and body, and what is answered: statuses in turn, the last on."""

    statuses: list[int] = field(default_factory=lambda: [200])
    heard: list[tuple[dict[str, str], bytes]] = field(default_factory=list)
    port: int = 0
    wait_seconds: float = 0.0
    headers: dict[str, str] = field(default_factory=dict)
    heard_path: str = ""

    @property
    def url(self) -> str:
        """Where it hears."""
        return f"http://127.0.0.1:{self.port}/hooks"


@contextmanager
def receiving() -> Iterator[Receiver]:
    """A receiver that runs."""
    receiver = Receiver()

    class Handler(BaseHTTPRequestHandler):
        """Hears one request."""

        def do_POST(self) -> None:
            """Note it and answer."""
            body = self.rfile.read(int(self.headers["Content-Length"]))
            receiver.heard_path = self.path
            receiver.heard.append(({k.lower(): v for k, v in self.headers.items()}, body))
            time.sleep(receiver.wait_seconds)
            turn = min(len(receiver.heard), len(receiver.statuses)) - 1
            self.send_response(receiver.statuses[turn])
            for name, value in receiver.headers.items():
                self.send_header(name, value)
            self.send_header("Content-Length", "0")
            self.end_headers()

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    receiver.port = server.server_address[1]
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02})
    thread.start()
    try:
        yield receiver
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
