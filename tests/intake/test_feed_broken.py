"""Feeds that speak no HTTP, break off, or never come to an end: one sentence, and never half a figure."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from scout.errors import BadInput
from scout.intake.feed import Address

HEAD = b"HTTP/1.1 200 OK\r\nContent-Type: text/csv\r\n"
CHUNKED = HEAD + b"Transfer-Encoding: chunked\r\n\r\n"


@contextmanager
def answering(*parts: bytes, every_s: float = 0.0) -> Iterator[str]:
    """Answer one request with these bytes as they are, then hang up."""
    over = threading.Event()
    server = socket.create_server(("127.0.0.1", 0))

    def answer() -> None:
        caller, _ = server.accept()
        with caller:
            caller.recv(4096)
            for part in parts:
                try:
                    caller.sendall(part)
                except OSError:
                    return  # the caller has given up
                if over.wait(every_s):
                    return

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.getsockname()[1]}/"
    finally:
        over.set()
        thread.join()
        server.close()


BROKEN = {
    "no HTTP": ((b"hello\r\n",), "could not be reached"),
    "silence": ((), "could not be reached"),
    "a chunk without a size": ((CHUNKED + b"zz\r\n",), "could not be reached"),
    "a chunk cut short": ((CHUNKED + b"10\r\ndate",), "could not be reached"),
    "a figure cut short": ((HEAD + b"Content-Length: 40\r\n\r\ndate,tmax_c\n2026-07-01,3",), "broke off half-way"),
}


@pytest.mark.parametrize(("parts", "said"), BROKEN.values(), ids=BROKEN.keys())
def test_an_answer_that_breaks_off_is_one_sentence(parts: tuple[bytes, ...], said: str) -> None:
    with answering(*parts) as address, pytest.raises(BadInput, match=said):
        Address(address, timeout_s=2.0).ask()


def test_an_answer_that_drips_without_end_is_given_up() -> None:
    drops = [HEAD + b"Content-Length: 1000\r\n\r\n", *[b"x"] * 1000]
    with (
        answering(*drops, every_s=0.02) as address,
        pytest.raises(BadInput, match=r"did not answer within 0\.2 seconds"),
    ):
        Address(address, timeout_s=0.2).ask()
