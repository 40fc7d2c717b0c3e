"""Cases for `bedwalk diagnose --case`: one JSON object, or a list of them answered one by one."""

import json
from dataclasses import dataclass
from datetime import date as Date
from typing import Annotated, Any

from pydantic import AfterValidator, Field, ValidationError, model_validator

from scout.errors import BadInput
from scout.intake.written import Line, Written, first_fault
from scout.knowledge.schema import StageId
from scout.plain import clean_text, shortened
from scout.science.weather_day import LIMITS, check_day

WORDS_MAX = 2000
MAX_CASES = 5000
_MAX_PLANTS = 100_000


def _plausible(date: Date) -> Date:
    if not 1900 <= date.year <= 2100:
        raise ValueError("is not in this century or the last; check the year")
    return date


def _free_words(text: str) -> str:
    return clean_text(text, keep_newlines=True)


Day = Annotated[Date, AfterValidator(_plausible)]
Ids = Annotated[tuple[Line, ...], Field(max_length=200)]


def _within(name: str) -> Any:
    low, high = LIMITS[name]
    return Field(default=None, ge=low, le=high, allow_inf_nan=False)


class CaseDay(Written):
    """One day of weather; days after the case's date count as forecast."""

    date: Day
    tmax_c: float | None = _within("tmax_c")
    tmin_c: float | None = _within("tmin_c")
    rain_mm: float | None = _within("rain_mm")
    wet_h: float | None = _within("wet_h")
    rh_mean_pct: float | None = _within("rh_mean_pct")

    @model_validator(mode="after")
    def _can_be(self) -> "CaseDay":
        check_day(self.tmax_c, self.tmin_c, self.rain_mm, self.wet_h, self.rh_mean_pct)
        return self


class Case(Written):
    """What was seen on one planting; every key but crop may be left out."""

    crop: Line
    """Id or published alias."""
    stage: StageId | None = None
    on: Day | None = None
    seen: Ids = ()
    """Symptoms by id or published alias."""
    not_seen: Ids = ()
    """Symptoms looked for and not found."""
    circumstances: dict[Line, bool] = Field(default_factory=dict, max_length=200)
    looked: int | None = Field(default=None, ge=0, le=_MAX_PLANTS)
    affected: int | None = Field(default=None, ge=0, le=_MAX_PLANTS)
    weather: Annotated[tuple[CaseDay, ...], Field(max_length=4000)] = ()
    words: Annotated[str, Field(max_length=WORDS_MAX), AfterValidator(_free_words)] = ""

    @model_validator(mode="after")
    def _agrees(self) -> "Case":
        if self.looked is not None and self.affected is not None and self.affected > self.looked:
            raise ValueError(f"affected ({self.affected}) is more than looked ({self.looked}); mend one of them")
        both = sorted(set(self.seen) & set(self.not_seen))
        if both:
            raise ValueError(f"“{both[0]}” is in seen and in not_seen; keep it in one")
        days = [day.date for day in self.weather]
        twice = next((day for at, day in enumerate(days) if day in set(days[:at])), None)
        if twice is not None:
            raise ValueError(f"weather has {twice.isoformat()} twice; keep one")
        return self


@dataclass(frozen=True, slots=True)
class CaseError:
    """A case that cannot be read, counted from 1, and why in one sentence."""

    number: int
    error: str


@dataclass(frozen=True, slots=True)
class Cases:
    """The cases in order; `is_list` False when the text was one object."""

    items: tuple[Case | CaseError, ...]
    is_list: bool


class _TwiceTheSame(ValueError):
    pass


def read_cases(text: str) -> Cases:
    """Return the cases in JSON text, each read or with its error. Errors: BadInput when it is no JSON of cases."""
    data = _parsed(text.removeprefix("\ufeff"))
    if isinstance(data, list):
        if not data:
            raise BadInput("The list of cases is empty; give at least one case.")
        if len(data) > MAX_CASES:
            raise BadInput(f"The list holds {len(data):,} cases; at most {MAX_CASES:,} are answered in one run.")
        return Cases(tuple(_case(item, number, f"Case {number}") for number, item in enumerate(data, 1)), True)
    return Cases((_case(data, 1, "The case"),), False)


def _parsed(text: str) -> Any:
    if not text.strip():
        raise BadInput("The case file is empty; write a JSON object with at least a crop.")
    try:
        return json.loads(text, parse_constant=_no_number, object_pairs_hook=_once)
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        raise BadInput(f"The case file is not JSON at {where}: {error.msg.lower()}; mend it there.") from None
    except _TwiceTheSame as error:
        raise BadInput(f"The case file has the key “{error}” twice in one object; keep one.") from None
    except ValueError:
        raise BadInput("The case file holds NaN, Infinity or a number far too long; leave the key out.") from None
    except RecursionError:
        raise BadInput("The case file is nested far too deeply; a case is a flat object.") from None


def _no_number(name: str) -> Any:
    raise ValueError(f"{name} is not a number")


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise _TwiceTheSame(shortened(key))
        found[key] = value
    return found


def _case(data: Any, number: int, called: str) -> Case | CaseError:
    if not isinstance(data, dict):
        return CaseError(number, f"{called} is not an object with a crop; write it like {{“crop”: “cucumber”}}.")
    try:
        return Case.model_validate_json(json.dumps(data, ensure_ascii=False).encode())
    except UnicodeEncodeError:
        return CaseError(number, f"{called} holds half of a character (\\ud800 to \\udfff); take it out.")
    except ValidationError as error:
        place, fault = first_fault(error, Case)
        day = (
            f", weather {place[1] + 1}"
            if len(place) > 1 and isinstance(place[1], int) and place[0] == "weather"
            else ""
        )
        return CaseError(number, f"{called}{day}: {fault}.")
