"""A small web server on this machine that answers as feeds do, well and badly."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

DAYS = b"date,tmax_c,tmin_c,rain_mm\n2026-07-19,33,21,0\n2026-07-20,34.5,22,1.5\n"
FORECAST = (
    b'{"issued_at": "2026-07-22T06:00", "rows": [{"time": "2026-07-22T13:00", "temp_c": 33.5, "rh_pct": 55},'
    b' {"time": "2026-07-22T14:00", "temp_c": 34, "rh_pct": null}]}'
)
ANSWERS = {
    "/days.csv": (200, "text/csv", DAYS),
    "/coming.json": (200, "application/json", FORECAST),
    "/broken.json": (200, "application/json", b'{"rows": [{"time": '),
    "/other.json": (200, "application/json", b'{"hourly": {"temperature": [1, 2]}}'),
    "/list.json": (200, "application/json", b'[{"time": "2026-07-22T13:00"}]'),
    "/bytes.csv": (200, "text/csv", b"\xff\xfe\x00date"),
    "/page": (200, "text/html", b"<html><body>Welcome</body></html>"),
    "/failing": (503, "text/plain", b"busy"),
    "/gone": (404, "text/plain", b"no"),
}


@contextmanager
def feed_server() -> Iterator[tuple[str, list[str]]]:
    """Yield the server's address and the paths it was asked for."""
    asked: list[str] = []
    over = threading.Event()

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            if self.path == "/slow":
                over.wait(10)  # until the test is over; the client has left by then
                return
            if self.path == "/moved":
                self.send_response(302)
                self.send_header("Location", "/days.csv")
                self.end_headers()
                return
            code, kind, body = ANSWERS[self.path]
            self.send_response(code)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *said: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}", asked
    finally:
        over.set()
        server.shutdown()
        thread.join()
        server.server_close()
