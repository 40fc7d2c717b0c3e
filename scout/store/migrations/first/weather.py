"""Weather and the history of changes, as of revision 0001."""

import sqlalchemy as sa
from alembic import op

from scout.store.migrations.first.columns import check, flag, index, long_text, real, table, text, time, whole


def create() -> None:
    """Make the tables."""
    _weather_day()
    _weather_series()
    _weather_hour()
    _tombstone()
    _change()


def _weather_day() -> None:
    table(
        "weather_day",
        text("station"),
        time("on"),
        text("kind"),
        time("issued_at", null=True),
        text("basis"),
        real("tmax_c", null=True),
        real("tmin_c", null=True),
        real("rain_mm", null=True),
        real("wet_h", null=True),
        flag("wet_morning", null=True),
        real("rh_mean_pct", null=True),
        rules={
            "station": "length(station) >= 1 AND length(station) <= 200",
            "on": 'length("on") = 10',
            "kind": "kind IN ('observed', 'forecast')",
            "issued_at": "length(issued_at) >= 10 AND length(issued_at) <= 16",
            "basis": "basis IN ('measured', 'station', 'typed', 'estimated')",
            "tmax_c": "tmax_c >= -60 AND tmax_c <= 60",
            "tmin_c": "tmin_c >= -60 AND tmin_c <= 60",
            "rain_mm": "rain_mm >= 0 AND rain_mm <= 2000",
            "wet_h": "wet_h >= 0 AND wet_h <= 24",
            "rh_mean_pct": "rh_mean_pct >= 0 AND rh_mean_pct <= 100",
            "tmin_c_to_tmax_c": "tmin_c <= tmax_c",
            "forecast_has_issue": "(kind = 'forecast') = (issued_at IS NOT NULL)",
        },
        indexes=(("station", "on"),),
    )


def _weather_series() -> None:
    table(
        "weather_series",
        text("station"),
        text("kind"),
        time("issued_at", null=True),
        text("basis"),
        rules={
            "station": "length(station) >= 1 AND length(station) <= 200",
            "kind": "kind IN ('observed', 'forecast')",
            "issued_at": "length(issued_at) >= 10 AND length(issued_at) <= 16",
            "basis": "basis IN ('measured', 'station', 'typed', 'estimated')",
            "forecast_has_issue": "(kind = 'forecast') = (issued_at IS NOT NULL)",
        },
        indexes=(("station",),),
    )


def _weather_hour() -> None:
    name = "weather_hour"
    rules = {
        "series_id": "length(series_id) = 36",
        "at": "length(at) = 16",
        "offset_min": "offset_min >= -840 AND offset_min <= 840",
        "temp_c": "temp_c >= -60 AND temp_c <= 60",
        "rh_pct": "rh_pct >= 0 AND rh_pct <= 100",
        "rain_mm": "rain_mm >= 0 AND rain_mm <= 2000",
        "wind_ms": "wind_ms >= 0 AND wind_ms <= 110",
        "import_id": "length(import_id) = 36",
    }
    op.create_table(
        name,
        text("series_id"),
        time("at"),
        whole("offset_min"),
        real("temp_c", null=True),
        real("rh_pct", null=True),
        real("rain_mm", null=True),
        real("wind_ms", null=True),
        flag("wet", null=True),
        text("import_id"),
        sa.PrimaryKeyConstraint("series_id", "at", "offset_min", name=op.f("pk_weather_hour")),
        sa.ForeignKeyConstraint(
            ["series_id"], ["weather_series.id"], name=op.f("fk_weather_hour_series_id_weather_series")
        ),
        *(check(name, rule, sql) for rule, sql in rules.items()),
        sqlite_with_rowid=False,
    )


def _tombstone() -> None:
    table(
        "tombstone",
        text("entity"),
        text("row_id"),
        text("why"),
        rules={
            "entity": "length(entity) >= 1 AND length(entity) <= 200",
            "row_id": "length(row_id) = 36",
            "why": "length(why) >= 1 AND length(why) <= 200",
        },
        indexes=(("entity", "row_id"),),
    )


def _change() -> None:
    name = "change"
    rules = {
        "id": "length(id) = 36",
        "garden_id": "length(garden_id) = 36",
        "device_id": "length(device_id) = 36",
        "author": "length(author) >= 1 AND length(author) <= 200",
        "entity": "length(entity) >= 1 AND length(entity) <= 200",
        "row_id": "length(row_id) = 36",
        "group_id": "length(group_id) = 36",
        "undoes": "length(undoes) = 36",
        "at": "length(at) >= 20 AND length(at) <= 27",
    }
    op.create_table(
        name,
        whole("seq"),
        text("id"),
        text("garden_id"),
        text("device_id"),
        text("author"),
        text("entity"),
        text("row_id"),
        long_text("before", null=True),
        long_text("after", null=True),
        text("group_id"),
        text("undoes", null=True),
        time("at"),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_change")),
        sa.UniqueConstraint("id", name=op.f("uq_change_id")),
        *(check(name, rule, sql) for rule, sql in rules.items()),
    )
    index(name, (("entity", "row_id"), ("group_id",), ("device_id", "seq"), ("undoes",)))
