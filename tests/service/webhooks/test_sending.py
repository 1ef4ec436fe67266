"""One webhook sent: the checked address, no redirect, a deadline, and certificates that hold."""

import asyncio
import os
import socket
import ssl
import subprocess
import threading
import time

import pytest

from service.webhooks.addresses import Resolver
from service.webhooks.look_ups import LookUp
from service.webhooks.sending import Sender, Sent
from tests.service.webhooks.receiver import receiving


@pytest.fixture
def receiver():
    """A server that hears webhooks."""
    with receiving() as running:
        yield running


def send(
    sender: Sender, url: str, body: bytes = b"{}", *, resolver: Resolver | None = None
) -> Sent:
    """What comes of one attempt."""
    sending = sender.send(
        url, headers={"webhook-id": "w"}, body=body, resolver=resolver or LookUp()
    )
    return asyncio.run(sending)


def open_sender(**options) -> Sender:
    """A sender that goes anywhere."""
    return Sender(**{"any_address": True, "limit_seconds": 3.0, **options})


def test_a_body_arrives_with_its_headers(receiver):
    """The receiver hears the bytes as they are, as JSON, and its status is known."""
    receiver.statuses = [204]
    assert send(open_sender(), receiver.url, b'{"a": 1}') == Sent(204)
    ((headers, body),) = receiver.heard
    assert body == b'{"a": 1}'
    assert headers["webhook-id"] == "w"
    assert headers["content-type"] == "application/json"


def test_the_name_is_resolved_once_and_the_connection_goes_there(receiver):
    """A name that leads inside at the second look does no harm: there is no second look."""
    looks = []

    async def rebinding(host: str, port: int) -> list[str]:
        looks.append(host)
        return ["127.0.0.1"] if len(looks) == 1 else ["127.0.0.2"]

    url = f"http://trips.example:{receiver.port}/hooks"
    assert send(open_sender(), url, resolver=rebinding).status == 200
    assert looks == ["trips.example"]
    assert receiver.heard[0][0]["host"] == f"trips.example:{receiver.port}"


def test_a_name_that_leads_inside_is_refused_at_every_attempt(receiver):
    """It may lead outside when it is accepted; what counts is where each connection would go."""
    answers = iter([["192.0.2.77"], ["127.0.0.1"], ["8.8.8.8", "::1"]])

    async def resolver(_host: str, _port: int) -> list[str]:
        return next(answers)

    guarded = open_sender(any_address=False)
    for _ in range(3):
        sent = send(guarded, f"http://trips.example:{receiver.port}/", resolver=resolver)
        assert sent == Sent(fault="address_refused")
    assert receiver.heard == []


def test_no_redirect_is_followed(receiver):
    """A receiver cannot lead the service on to another address."""
    receiver.statuses = [307]
    receiver.headers = {"Location": f"http://127.0.0.1:{receiver.port}/other"}
    assert send(open_sender(), receiver.url) == Sent(307, "refused_by_receiver")
    assert len(receiver.heard) == 1


def test_no_proxy_of_the_environment_sees_a_webhook(receiver, monkeypatch):
    """Whatever HTTP_PROXY says, the connection goes to the checked address."""
    monkeypatch.setenv("HTTP_PROXY", "http://127.0.0.1:9")
    monkeypatch.setenv("http_proxy", "http://127.0.0.1:9")
    assert send(open_sender(), receiver.url).status == 200


def test_nobody_there_is_told_apart_from_no_such_host():
    """A closed port is no connection; a name that leads nowhere is no address."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        port = server.getsockname()[1]
    assert send(open_sender(), f"http://127.0.0.1:{port}/") == Sent(fault="no_connection")

    async def nothing(_host: str, _port: int) -> list[str]:
        raise socket.gaierror

    assert send(open_sender(), "http://trips.example/", resolver=nothing) == Sent(
        fault="no_address"
    )


def test_what_nobody_foresaw_is_a_failed_attempt_with_a_trace_in_the_log(caplog):
    """Whatever a library raises, an attempt has an end that can be stored."""

    async def broken(_host: str, _port: int) -> list[str]:
        raise RuntimeError

    sent = send(open_sender(), "http://trips.example/secret", resolver=broken)
    assert sent == Sent(fault="no_connection")
    assert "RuntimeError" in caplog.text
    assert "trips.example" not in caplog.text


@pytest.mark.parametrize("drip", [b"", b"HTTP/1.1 200 OK\r\n"])
def test_a_receiver_that_never_ends_its_answer_costs_the_deadline_and_no_more(drip):
    """Neither silence nor a header without end holds the service longer than its limit."""
    stop = threading.Event()

    def dawdle(server: socket.socket) -> None:
        connection, _ = server.accept()
        with connection:
            connection.sendall(drip)
            while drip and not stop.wait(0.05):
                try:
                    connection.sendall(b"x")
                except OSError:
                    break
            stop.wait(5)

    with socket.create_server(("127.0.0.1", 0)) as server:
        thread = threading.Thread(target=dawdle, args=(server,))
        thread.start()
        begin = time.monotonic()
        sent = send(open_sender(limit_seconds=0.5), f"http://127.0.0.1:{server.getsockname()[1]}/")
        taken = time.monotonic() - begin
        stop.set()
        thread.join()
    assert sent == Sent(fault="no_answer_in_time")
    assert taken < 2.0


def test_a_flood_for_an_answer_is_not_read():
    """Headers without end are given up by size, and a body is not read at all."""

    def flood(server: socket.socket, start: bytes) -> None:
        connection, _ = server.accept()
        with connection:
            connection.recv(65_536)
            try:
                connection.sendall(start)
                for _ in range(2000):
                    connection.sendall(b"x" * 65_536)
            except OSError:
                return

    results = []
    for start in (b"HTTP/1.1 200 OK\r\nX-A: ", b"HTTP/1.1 200 OK\r\n\r\n"):
        with socket.create_server(("127.0.0.1", 0)) as server:
            thread = threading.Thread(target=flood, args=(server, start))
            thread.start()
            results.append(send(open_sender(), f"http://127.0.0.1:{server.getsockname()[1]}/"))
            thread.join()
    assert results == [Sent(fault="no_connection"), Sent(200)]


def test_a_certificate_must_be_valid_for_the_name(tmp_path, monkeypatch):
    """The name of the address is what the certificate is held against, not the checked number."""
    key, certificate = tmp_path / "key.pem", tmp_path / "certificate.pem"
    made = subprocess.run(
        ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", key,
         "-out", certificate, "-days", "2", "-subj", "/CN=trips.example",
         "-addext", "subjectAltName=DNS:trips.example"],
        capture_output=True,
        check=False,
    )  # fmt: skip
    if made.returncode != 0:
        pytest.skip("openssl cannot make a certificate here")
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate, key)

    async def here(_host: str, _port: int) -> list[str]:
        return ["127.0.0.1"]

    def over_tls(host: str) -> Sent:
        def serve(server: socket.socket) -> None:
            raw, _ = server.accept()
            with raw:
                try:
                    with context.wrap_socket(raw, server_side=True) as tls:
                        tls.recv(65_536)
                        tls.sendall(b"HTTP/1.1 200 OK\r\nContent-Length: 0\r\n\r\n")
                        # To close before the whole request is taken would take the answer back.
                        while tls.recv(65_536):
                            pass
                except OSError:
                    return

        with socket.create_server(("127.0.0.1", 0)) as server:
            thread = threading.Thread(target=serve, args=(server,))
            thread.start()
            sent = send(open_sender(), f"https://{host}:{server.getsockname()[1]}/", resolver=here)
            thread.join()
        return sent

    assert over_tls("trips.example") == Sent(fault="no_connection")
    monkeypatch.setitem(os.environ, "SSL_CERT_FILE", str(certificate))
    assert over_tls("trips.example") == Sent(200)
    assert over_tls("other.example") == Sent(fault="no_connection")
