"""Fields of files that people write, and their faults said in one sentence."""

from collections.abc import Sequence
from datetime import date, datetime
from difflib import get_close_matches
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, ValidationError
from pydantic_core import ErrorDetails

from scout.errors import BadInput
from scout.intake.dates import read_date
from scout.intake.decimals import read_count, read_decimal
from scout.plain import clean_text, shortened

LINE_MAX = 200
NOTE_MAX = 10_000
Place = tuple[int | str, ...]
"""Where in a file: table, number from 0, key."""


class Written(BaseModel):
    """A part of a file: no unknown keys, no silent conversion, fixed after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


def _line(text: str) -> str:
    return _sized(clean_text(text), LINE_MAX)


def _note(text: str) -> str:
    clean = clean_text(text, keep_newlines=True)
    return _sized(clean, NOTE_MAX) if clean else ""


def _sized(text: str, longest: int) -> str:
    if not text:
        raise ValueError("must not be empty; leave the key out instead")
    if len(text) > longest:
        raise ValueError(f"has {len(text):,} characters; at most {longest:,} fit")
    return text


def _day(value: Any) -> Any:
    if isinstance(value, datetime):
        raise ValueError("has a time of day; write the date alone, like 2026-07-01")
    if isinstance(value, str):
        return _part_of(read_date, value)
    if isinstance(value, date) and not 1900 <= value.year <= 2100:
        raise ValueError(f"is {value.isoformat()}, not in this century or the last; check the year")
    return value


def _whole(value: Any) -> Any:
    return _part_of(read_count, value) if isinstance(value, str) else value


def _decimal(value: Any) -> Any:
    return _part_of(read_decimal, value) if isinstance(value, str) else value


def _part_of(read: Any, text: str) -> Any:
    try:
        return read(text)
    except BadInput as problem:
        raise ValueError(str(problem).rstrip(".")) from None


Line = Annotated[str, AfterValidator(_line)]
"""One line of text, cleaned, 1 to 200 characters."""
Note = Annotated[str, AfterValidator(_note)]
"""Text of several lines, cleaned, up to 10,000 characters."""
Day = Annotated[date, BeforeValidator(_day)]
Whole = Annotated[int, BeforeValidator(_whole)]
Decimal = Annotated[float, BeforeValidator(_decimal)]
"""A number; as text also with a decimal comma."""


def first_fault(error: ValidationError, model: type[BaseModel]) -> tuple[Place, str]:
    """Return the place of the first fault and what is wrong there, without a full stop, with the mend."""
    faults = error.errors(include_url=False)
    # a misspelt key is also a missing one; naming the misspelling is the help
    fault = next((one for one in faults if one["type"] == "extra_forbidden"), faults[0])
    place = tuple(fault["loc"])
    more = error.error_count() - 1
    tail = f" (and {more} more)" if more else ""
    return place, f"{_sentence(fault, place, model)}{tail}"


def _sentence(fault: ErrorDetails, place: Place, model: type[BaseModel]) -> str:
    kind, context, key = fault["type"], fault.get("ctx", {}), _key(place)
    if kind == "missing":
        return f"{key} is missing"
    if kind == "extra_forbidden":
        return f"{key} is not a key here{_known(place, model)}"
    if kind == "value_error":
        return f"{key}: {context['error']}" if place else str(context["error"])
    if kind == "literal_error":
        return f"{key} must be {context['expected']}, not {_shown(fault['input'])}"
    wanted = _WANTED.get(kind)
    if wanted:
        return f"{key} must be {wanted}, not {_shown(fault['input'])}"
    found = "" if isinstance(fault["input"], dict | list | tuple) else f", not {_shown(fault['input'])}"
    return f"{key}: {shortened(_bound(fault), 80)}{found}"


_WANTED = {
    "int_type": "a whole number", "int_from_float": "a whole number", "float_type": "a number",
    "bool_type": "true or false", "string_type": "text in quotation marks", "date_type": "a date like 2026-07-01",
    "date_from_datetime_parsing": "a date like 2026-07-01", "date_parsing": "a date like 2026-07-01",
    "date_from_datetime_inexact": "a date like 2026-07-01", "list_type": "a list", "tuple_type": "a list",
    "dict_type": "a table", "model_type": "a table", "finite_number": "a number", "model_attributes_type": "a table",
}  # fmt: skip


_PLAINER = (
    ("Input should be greater than or equal to", "must be at least"),
    ("Input should be less than or equal to", "must be at most"),
    ("Input should be", "must be"),
    ("String should have", "must have"),
    ("Tuple should have", "must have"),
    ("Dictionary should have", "must have"),
    ("after validation, ", ""),
    (" on the list", ""),
)


def _bound(fault: ErrorDetails) -> str:
    words = fault["msg"]
    for theirs, ours in _PLAINER:
        words = words.replace(theirs, ours)
    return words


def _key(place: Place) -> str:
    names = [part for part in place if isinstance(part, str)]
    return f"“{shortened(names[-1])}”" if names else "the file"


def _known(place: Place, model: type[BaseModel]) -> str:
    """Return the nearest key, or those there are."""
    keys = keys_at(place[:-1], model)
    close = get_close_matches(str(place[-1]), keys, n=1)
    if close:
        return f"; did you mean “{close[0]}”"
    return f"; known are {', '.join(keys)}" if keys else ""


def keys_at(place: Place, model: type[BaseModel]) -> list[str]:
    """Return the keys that the table at `place` may have."""
    here: type[BaseModel] | None = model
    for part in place:
        if isinstance(part, str) and here is not None:
            field = here.model_fields.get(part)
            here = _model_in(field.annotation) if field else None
    return list(here.model_fields) if here else []


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    inner: Sequence[Any] = getattr(annotation, "__args__", ())
    return next((found for part in inner if (found := _model_in(part))), None)


def _shown(value: Any) -> str:
    if isinstance(value, dict | list | tuple):
        return "a table" if isinstance(value, dict) else "a list"
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    return f"“{shortened(str(value))}”"
