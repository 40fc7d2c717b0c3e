"""What one field may hold: each rule says it once, for the person and for the database."""

import json
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any
from zoneinfo import ZoneInfo

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema
from sqlalchemy import String
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator, TypeEngine

from scout.plain import clean_text

NOTE_MAX = 10_000
LINE_MAX = 200


class Sorted(TypeDecorator[str]):
    """Text that sorts by its characters on both engines, whatever the language of the server."""

    impl = String
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[str]:
        """Return plain text, with the byte order named where the server would otherwise choose."""
        return String(collation="C") if dialect.name == "postgresql" else String()


class Rule:
    """One rule for one field; `accept` returns the value to keep or raises ValueError with a sentence part."""

    def accept(self, value: Any) -> Any:
        """Return the value to keep."""
        raise NotImplementedError

    def sql(self, column: str) -> str:
        """Return the same rule for the database, or the nearest it can hold on both engines."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Run `accept` after pydantic has checked the type."""
        return core_schema.no_info_after_validator_function(self.accept, handler(source))


def _number(value: float) -> str:
    return str(int(value)) if value == int(value) else repr(value)


def _length(column: str, shortest: int, longest: int) -> str:
    if shortest == longest:
        return f"length({column}) = {longest}"
    return f"length({column}) >= {shortest} AND length({column}) <= {longest}"


@dataclass(frozen=True)
class Between(Rule):
    """A number from `low` to `high`, both allowed."""

    low: float
    high: float

    def accept(self, value: float) -> float:
        """Return the number, or refuse one outside the range or not a number at all."""
        if math.isnan(value) or not self.low <= value <= self.high:
            raise ValueError(f"must lie between {self.low:,} and {self.high:,}, not {value:,}")
        return value

    def sql(self, column: str) -> str:
        """Return the range. With both ends given, SQLite also refuses text here: it sorts above numbers."""
        return f"{column} >= {_number(self.low)} AND {column} <= {_number(self.high)}"


@dataclass(frozen=True)
class OneOf(Rule):
    """One word of a closed list."""

    words: tuple[str, ...]

    def accept(self, value: str) -> str:
        """Return the word, or refuse it with the list."""
        if value not in self.words:
            raise ValueError(f"must be one of {', '.join(self.words)}, not {value[:40]!r}")
        return value

    def sql(self, column: str) -> str:
        """Return the list."""
        return f"{column} IN ({', '.join(repr(word) for word in self.words)})"


@dataclass(frozen=True)
class Written(Rule):
    """Text by the grower, cleaned; `lines` keeps line ends, `empty` allows nothing at all."""

    longest: int
    lines: bool
    empty: bool

    def accept(self, value: str) -> str:
        """Return the cleaned text."""
        text = clean_text(value, keep_newlines=self.lines)
        if not text and not self.empty:
            raise ValueError("must not be empty")
        if len(text) > self.longest:
            raise ValueError(f"holds at most {self.longest:,} characters, not {len(text):,}")
        return text

    def sql(self, column: str) -> str:
        """Return the length."""
        return _length(column, 0 if self.empty else 1, self.longest)


@dataclass(frozen=True)
class Shaped(Rule):
    """Text of a fixed shape, such as a day or an id."""

    shape: str
    example: str
    lengths: tuple[int, int]
    real: Callable[[str], object] | None = None
    """Raises ValueError for what has the shape but cannot be, such as 30 February."""

    def accept(self, value: str) -> str:
        """Return the text, or refuse it with an example."""
        try:
            if not re.fullmatch(self.shape, value, re.ASCII):
                raise ValueError
            if self.real:
                self.real(value)
        except (ValueError, RecursionError):
            raise ValueError(f"must look like {self.example}, not {value[:40]!r}") from None
        return value

    def sql(self, column: str) -> str:
        """Return the length."""
        return _length(column, *self.lengths)


def _real_day(text: str) -> None:
    if not 1900 <= date.fromisoformat(text[:10]).year <= 2200:
        raise ValueError


def _real_zone(text: str) -> None:
    try:
        ZoneInfo(text)
    except (OSError, ValueError, KeyError):
        try:
            ZoneInfo("Etc/GMT+1")
        except (OSError, ValueError, KeyError):
            return  # no time zone data on this machine, so nothing can be said
        raise ValueError from None


_DAY = r"\d{4}-\d\d-\d\d"
_CLOCK = r"([01]\d|2[0-3]):[0-5]\d"

Id = Annotated[
    str,
    Shaped(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "0198b2f0-0000-7000-8000-000000000000", (36, 36)),
]
KnownId = Annotated[str, Shaped(r"(?=.{1,60}$)[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?", "leaf.ringed_spots", (1, 60))]
"""An id of the knowledge base; whether it exists there is asked elsewhere, so that old rows stay readable."""
Day = Annotated[str, Shaped(_DAY, "2026-07-20", (10, 10), _real_day)]
Moment = Annotated[
    str,
    Shaped(f"{_DAY}(T{_CLOCK})?", "2026-07-20T18:22, or 2026-07-20 when the hour is unknown", (10, 16), _real_day),
]
"""The grower's wall clock; the offset from UTC stands in a column of its own."""
Hour = Annotated[str, Shaped(f"{_DAY}T{_CLOCK}", "2026-07-20T18:00", (16, 16), _real_day)]
Instant = Annotated[
    str, Shaped(rf"{_DAY}T{_CLOCK}:[0-5]\d(\.\d{{1,6}})?Z", "2026-07-20T16:22:05Z", (20, 27), _real_day)
]
"""UTC, kept beside the wall clock for what the device itself did."""
MonthDay = Annotated[str, Shaped(r"\d\d-\d\d", "05-15", (5, 5), lambda text: date.fromisoformat(f"2000-{text}"))]
Zone = Annotated[str, Shaped(r"[A-Za-z][A-Za-z0-9_+/-]{0,59}", "Etc/UTC", (1, 60), _real_zone)]
Digest = Annotated[str, Shaped(r"[0-9a-f]{64}", "64 hexadecimal digits", (64, 64))]
JsonText = Annotated[str, Shaped(r"[\s\S]{1,1000000}", '{"key": 1}', (1, 1_000_000), json.loads)]
FileName = Annotated[str, Shaped(r"(?!.*\.\.)[a-z0-9][a-z0-9_./-]{0,119}", "2026/0198b2f0.jpg", (1, 120))]
"""Made by the program, never by a person: no blanks, no way up."""
Line = Annotated[str, Written(LINE_MAX, lines=False, empty=False)]
Note = Annotated[str, Written(NOTE_MAX, lines=True, empty=True)]
Offset = Annotated[int, Between(-840, 840)]
Count = Annotated[int, Between(0, 100_000)]
Some = Annotated[int, Between(1, 100_000)]
Node = Annotated[int, Between(0, 200)]
Percent = Annotated[float, Between(0, 100)]


@dataclass(frozen=True)
class Across:
    """A rule over several fields of one row."""

    name: str
    sql: str
    """True or unknown for a good row; the same on both engines."""
    broken: Callable[[Any], bool]
    sentence: str


def not_above(low: str, high: str, sentence: str) -> Across:
    """Return the rule that `low` is at most `high` where both are known; `sentence` is said when it is not."""

    def broken(row: Any) -> bool:
        first, second = getattr(row, low), getattr(row, high)
        return first is not None and second is not None and first > second

    return Across(f"{low}_to_{high}", f"{low} <= {high}", broken, sentence)
