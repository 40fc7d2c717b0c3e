"""Turns a refused row into one sentence."""

from collections.abc import Mapping
from typing import Any, TypeVar

from pydantic import ValidationError

from scout.errors import BadInput
from scout.store.rows import Plain, entity_name

P = TypeVar("P", bound=Plain)

_TYPES = {
    "int_type": "must be a whole number",
    "int_from_float": "must be a whole number",
    "float_type": "must be a number",
    "finite_number": "must be a number",
    "string_type": "must be text",
    "bool_type": "must be yes or no",
    "missing": "is missing",
    "extra_forbidden": "is not a field of it",
}


def checked(noun: type[P], values: Mapping[str, Any]) -> P:
    """Return `values` as a checked object of the plain class `noun`; raises BadInput with one sentence."""
    try:
        return noun.model_validate(dict(values))
    except ValidationError as refused:
        raise BadInput(_sentence(noun, refused.errors(include_url=False)[0])) from None


def _sentence(noun: type[Plain], error: Any) -> str:
    name = entity_name(noun.__name__).replace("_", " ")
    if error["type"] == "value_error":
        reason = str(error["ctx"]["error"])
    else:
        reason = _TYPES.get(error["type"], error["msg"].lower())
    if not error["loc"]:
        return f"This {name} {reason}."
    return f"{name.capitalize()}: {error['loc'][0]!s} {reason}."
