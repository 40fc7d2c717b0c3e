"""Weather from an address of the grower's choice: off unless the settings name one, and asked by hand alone.

An answer is CSV as any weather file, or JSON: {"issued_at": "2026-07-22T06:00", "rows": [{"time": "2026-07-22T07:00",
"temp_c": 21.4, "rh_pct": 80}]}. The names in a row are headings of a weather file; issued_at marks a forecast.
Nothing about the garden is sent.
"""

import csv
import io
import json
from collections.abc import Mapping
from dataclasses import dataclass
from http.client import HTTPException, HTTPResponse
from time import monotonic
from typing import IO, Any, Protocol
from urllib.error import HTTPError, URLError
from urllib.parse import urlsplit
from urllib.request import HTTPRedirectHandler, Request, build_opener

from scout.errors import BadInput

MOST_BYTES = 4_000_000
"""Ten years of days, or a year of hours; more is refused."""
TIMEOUT_S = 15.0
_PART = 65_536
_THIS_MACHINE = ("localhost", "127.0.0.1", "::1")


@dataclass(frozen=True)
class Answer:
    """What a provider gave: a weather file's text, and for a forecast its time of issue."""

    text: str
    issued_at: str | None = None


class Provider(Protocol):
    """Where weather comes from."""

    def ask(self) -> Answer:
        """Return a weather file's text. Errors: BadInput saying what went wrong."""


@dataclass(frozen=True)
class Address:
    """A provider that asks one address, over https, or http on this machine."""

    address: str
    timeout_s: float = TIMEOUT_S
    most_bytes: int = MOST_BYTES

    def ask(self) -> Answer:
        """Return what the address answers. Errors: BadInput for a wrong address, no answer, a wrong or long answer."""
        _require_safe(self.address)
        request = Request(self.address, headers={"Accept": "text/csv, application/json", "User-Agent": "bedwalk"})
        try:
            with build_opener(_NoRedirect).open(request, timeout=self.timeout_s) as answer:
                body = self._read(answer)
                kind = str(answer.headers.get_content_type())
        except HTTPError as error:
            error.close()
            raise BadInput(f"The feed answered {error.code}; nothing was taken in. {_mend(error.code)}") from None
        except TimeoutError:
            raise BadInput(f"The feed did not answer within {self.timeout_s:g} seconds; try again later.") from None
        except (URLError, OSError, ValueError, HTTPException) as error:
            late = isinstance(getattr(error, "reason", None), TimeoutError)
            why = f"did not answer within {self.timeout_s:g} seconds" if late else "could not be reached"
            raise BadInput(f"The feed {why}; nothing was taken in.") from None
        if len(body) > self.most_bytes:
            raise BadInput(f"The feed sent more than {self.most_bytes} bytes; ask it for fewer days.")
        return read_answer(body, kind)

    def _read(self, answer: HTTPResponse) -> bytes:
        """Return the body, at most a byte over the limit. Errors: BadInput when it breaks off, TimeoutError.

        The time-out of the connection holds for each wait alone; here it holds for the whole answer.
        """
        begun = monotonic()
        expected = answer.length
        parts: list[bytes] = []
        taken = 0
        while taken <= self.most_bytes and (part := answer.read1(min(_PART, self.most_bytes + 1 - taken))):
            parts.append(part)
            taken += len(part)
            if monotonic() - begun > self.timeout_s:
                raise TimeoutError
        if expected is not None and taken < min(expected, self.most_bytes + 1):
            raise BadInput("The feed's answer broke off half-way; nothing was taken in. Try again later.")
        return b"".join(parts)


class _NoRedirect(HTTPRedirectHandler):
    """A feed that moves is not followed: the grower named one address and no other."""

    def redirect_request(
        self, req: Request, fp: IO[bytes], code: int, msg: str, headers: Any, newurl: str
    ) -> Request | None:
        """Refuse every redirect; the answer then counts as an error."""
        return None


def _require_safe(address: str) -> None:
    parts = urlsplit(address)
    if parts.scheme == "https" or (parts.scheme == "http" and parts.hostname in _THIS_MACHINE):
        return
    raise BadInput("settings.toml: feed must begin with https://.")


def _mend(code: int) -> str:
    if 300 <= code < 400:
        return "It points to another address, which is not followed; put that one into settings.toml."
    return "Try again later." if code >= 500 else "Mend the address in settings.toml."


def read_answer(body: bytes, kind: str) -> Answer:
    """Return the weather file's text in an answer. Errors: BadInput where it is neither CSV nor the JSON told above."""
    try:
        text = body.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInput("The feed's answer is no UTF-8 text; nothing was taken in.") from None
    if kind != "application/json" and not text.lstrip().startswith("{"):
        return Answer(text)
    try:
        told = json.loads(text)
    except (ValueError, RecursionError):
        raise BadInput("The feed's answer is broken JSON; nothing was taken in.") from None
    rows = told.get("rows") if isinstance(told, dict) else None
    if not isinstance(rows, list) or not rows or not all(isinstance(row, dict) for row in rows):
        raise BadInput('The feed\'s answer has no "rows" with a name for each figure; nothing was taken in.')
    issued = told.get("issued_at")
    return Answer(_as_csv(rows), None if issued is None else str(issued))


def _as_csv(rows: list[Mapping[str, object]]) -> str:
    names = list(dict.fromkeys(str(name) for row in rows for name in row))
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(names)
    writer.writerows([_cell(row.get(name)) for name in names] for row in rows)
    return out.getvalue()


def _cell(value: object) -> str:
    return "" if value is None or isinstance(value, dict | list) else str(value)
