"""Every table by its plain class and by its name."""

from typing import Any

from sqlalchemy import Table
from sqlmodel import SQLModel

from scout.errors import StoreError
from scout.store import tables_follow, tables_garden, tables_history, tables_log, tables_walk, tables_weather
from scout.store.rows import Observed, Plain, Stamped, entity_name

_MODULES = (tables_garden, tables_walk, tables_log, tables_follow, tables_weather, tables_history)
_NOT_STAMPED = (Plain, Observed, Stamped, tables_weather.WeatherHour)


def _nouns() -> dict[str, type[Plain]]:
    found: dict[str, type[Plain]] = {}
    for module in _MODULES:
        for thing in vars(module).values():
            is_noun = isinstance(thing, type) and issubclass(thing, Plain)
            if is_noun and thing not in _NOT_STAMPED and not thing.__name__.endswith("Row"):
                found[entity_name(thing.__name__)] = thing
    return found


NOUNS: dict[str, type[Plain]] = _nouns()
"""Table name → the class that checks its rows, for every table with a stamp.

`change` is written by the history alone, `weather_hour` by its import alone.
"""
STAMPS = tuple(Stamped.model_fields)


def entity_of(noun: type[Any]) -> str:
    """Return the table's name for a plain class or its row class."""
    name = entity_name(noun.__name__)
    if name not in NOUNS:
        raise StoreError(f"There is no table for {noun.__name__}.")
    return name


def table_of(entity: str) -> Table:
    """Return the table by its name."""
    return SQLModel.metadata.tables[entity]
