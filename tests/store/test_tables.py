"""Every table takes a good row and refuses a bad one, in the program and in the database."""

from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Engine, inspect, text
from sqlalchemy.exc import DBAPIError
from sqlmodel import SQLModel

from scout.errors import BadInput
from scout.store.checking import checked
from scout.store.history import transaction
from scout.store.rows import Stamped, rules
from scout.store.tables import NOUNS, table_of
from scout.store.tables_follow import Measurement
from scout.store.tables_history import ChangeRow
from scout.store.tables_weather import WeatherHourRow

from .conftest import Farm
from .samples import BAD, add_one_of_each, good


def test_every_table_takes_a_good_row_and_gives_it_back_as_it_was(farm: Farm) -> None:
    """What was checked is what is stored, on both engines: text, numbers, yes-or-no, nothing at all."""
    with transaction(farm.engine, farm.stamp) as tx:
        ids = add_one_of_each(tx, farm)
    assert {"garden", "device", *ids} == set(NOUNS)
    for entity, values in good(farm).items():
        if entity in ids:
            stored = next(row for row in farm.rows(entity) if row["id"] == ids[entity])
            want = checked(NOUNS[entity], values).model_dump()
            assert {name: stored[name] for name in want} == want, entity
    assert len(farm.rows("weather_hour")) == 24


@pytest.mark.parametrize(
    ("entity", "wrong", "sentence"), BAD, ids=[f"{e}-{next(iter(w))}-{n}" for n, (e, w, _) in enumerate(BAD)]
)
def test_the_plain_class_refuses_what_cannot_be_with_one_sentence(
    entity: str, wrong: dict[str, Any], sentence: str
) -> None:
    """The sentence names noun and field and ends with a full stop."""

    class Lender:
        planting = bed = stop = walk = "0198b2f0-0000-7000-8000-000000000001"

    values = good(Lender)[entity]
    checked(NOUNS[entity], values)
    with pytest.raises(BadInput) as refused:
        checked(NOUNS[entity], values | wrong)
    said = str(refused.value)
    assert sentence in said and said.endswith(".") and "\n" not in said
    assert entity.replace("_", " ") in said.lower()


def test_a_measurement_that_was_questioned_is_kept_as_typed(farm: Farm) -> None:
    """The program asks about a leaf above the tip; where the grower says it is so, both engines take it."""
    plant = farm.write(NOUNS["marked_plant"], planting_id=farm.planting, label="tape", habit="indeterminate")
    typed = {"marked_plant_id": plant, "observed_at": "2026-07-20", "wet": "dry", "top_leaf": 12}
    farm.write(Measurement, **typed, highest_diseased=13, stripped_to=14)
    (row,) = farm.rows("measurement")
    assert (row["top_leaf"], row["highest_diseased"], row["stripped_to"]) == (12, 13, 14)


def test_a_missing_field_is_named() -> None:
    """Not a traceback, not a list."""
    with pytest.raises(BadInput, match=r"^Bed: name is missing\.$"):
        checked(NOUNS["bed"], {"position": 1})


def _break_in(engine: Engine, entity: str, row: dict[str, Any]) -> None:
    """Write past every check of the program."""
    columns = ", ".join(f'"{name}"' for name in row)
    marks = ", ".join(f":{name}" for name in row)
    with engine.begin() as connection:
        connection.execute(text(f"INSERT INTO {entity} ({columns}) VALUES ({marks})"), row)


_DEEP = [
    ("bed", {"kind": "field"}),
    ("bed", {"position": -1}),
    ("bed", {"position": 10_001}),
    ("bed", {"note": "x" * 10_001}),
    ("bed", {"retired_on": "soon"}),
    ("planting", {"set_out_on": "2026-02-28"}),
    ("finding", {"affected_n": 7}),
    ("finding", {"state": "not_seen"}),
    ("finding", {"severity_outer_pct": 101.0}),
    ("clearance", {"looked_n": 0}),
    ("trouble", {"state": "closed"}),
    ("job", {"state": "done"}),
    ("weather_day", {"tmin_c": 40.0}),
    ("weather_day", {"on": "19 July"}),
    ("weather_day", {"kind": "forecast"}),
]


@pytest.mark.parametrize(("entity", "wrong"), _DEEP, ids=[f"{e}-{next(iter(w))}" for e, w in _DEEP])
def test_the_database_itself_refuses_what_gets_past_the_program(farm: Farm, entity: str, wrong: dict[str, Any]) -> None:
    """A CHECK stands behind each rule, so a stray script cannot spoil the file."""
    with transaction(farm.engine, farm.stamp) as tx:
        row_id = tx.add(NOUNS[entity], **good(farm)[entity])
        row = tx.row(entity, row_id)
    assert row is not None
    _break_in(farm.engine, entity, row | {"id": "0198b2f0-0000-7000-8000-00000000beef"})
    with pytest.raises(DBAPIError, match="ck_"):
        _break_in(farm.engine, entity, row | {"id": "0198b2f0-0000-7000-8000-00000000cafe"} | wrong)


def test_sqlite_refuses_text_where_a_number_belongs(file_farm: Farm) -> None:
    """SQLite would keep any text in an INTEGER column; the range rule stops it."""
    row = file_farm.rows("bed")[0] | {"id": "0198b2f0-0000-7000-8000-00000000beef", "position": "third"}
    with pytest.raises(DBAPIError, match="CHECK"):
        _break_in(file_farm.engine, "bed", row)


def test_foreign_keys_are_on_in_every_connection(file_farm: Farm) -> None:
    """SQLite has them off unless each connection says otherwise."""
    for _ in range(3):
        with file_farm.engine.connect() as connection:
            names = ("foreign_keys", "journal_mode", "synchronous", "busy_timeout")
            pragmas = [connection.execute(text(f"PRAGMA {name}")).scalar() for name in names]
        file_farm.engine.dispose()
        assert pragmas == [1, "wal", 2, 5000]  # sqlite.org/pragma.html: 2 is FULL


def test_models_and_migration_make_the_same_tables(farm: Farm) -> None:
    """Columns, types, indexes and keys, as alembic compares them."""
    with farm.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, SQLModel.metadata) == []


def test_models_and_migration_hold_the_same_rules(file_farm: Farm) -> None:
    """Alembic does not compare CHECK constraints, and batch changes drop them: so they are compared here."""
    looked_at = inspect(file_farm.engine)
    models: dict[str, Any] = {row.__tablename__: row for row in Stamped.__subclasses__() if hasattr(row, "__table__")}
    models |= {"change": ChangeRow, "weather_hour": WeatherHourRow}
    assert set(models) == {*NOUNS, "change", "weather_hour"}
    for entity, model in models.items():
        want = {f"ck_{entity}_{rule.name}": str(rule.sqltext) for rule in rules(model)}
        have = {rule["name"]: rule["sqltext"] for rule in looked_at.get_check_constraints(entity)}
        assert have == want, entity


def test_every_foreign_key_and_rule_has_a_name(file_farm: Farm) -> None:
    """SQLite can only ever drop a constraint that has one."""
    looked_at = inspect(file_farm.engine)
    for entity in (*NOUNS, "change", "weather_hour"):
        named = [
            *looked_at.get_foreign_keys(entity),
            *looked_at.get_check_constraints(entity),
            looked_at.get_pk_constraint(entity),
        ]
        assert all(constraint["name"] for constraint in named), entity


def test_times_sort_by_their_characters_on_both_engines(farm: Farm) -> None:
    """A day without an hour comes before the hours of that day, and after the day before."""
    moments = ["2026-07-20T18:22", "2026-07-21", "2026-07-20", "2026-07-19T23:59", "2026-07-20T07:10"]
    for moment in moments:
        farm.write(NOUNS["pick"], planting_id=farm.planting, sound_n=1, odd_n=0, observed_at=moment)
    table = table_of("pick")
    with farm.engine.connect() as connection:
        found = connection.execute(table.select().order_by(table.c.observed_at)).mappings().all()
    assert [row["observed_at"] for row in found] == sorted(moments)
