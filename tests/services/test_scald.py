"""Fruit in the sun: told where it is likely, with what it is told from."""

from datetime import date

import pytest

from scout.services import garden, scald
from scout.services.weather import type_forecast
from scout.store.weather import set_day

from ..small_garden import plant_of


@pytest.fixture
def fruiting(context) -> None:
    plant = plant_of(context, "sweet_pepper")
    garden.set_stage(context, plant.planting_id, "fruiting")


def yesterday(context, high_c: float) -> None:
    with context.write() as tx:
        set_day(tx, station="here", on="2026-07-21", kind="observed", basis="typed", tmax_c=high_c)


def test_without_a_high_nothing_is_said(context, fruiting) -> None:
    assert scald.scald_line(context) is None


def test_a_hot_yesterday_is_told_as_yesterday_and_a_forecast_goes_before_it(context, fruiting) -> None:
    # Pepper skin scalds from 105 °F (41 °C; University of Delaware weekly crop update 18732); the sun adds 5 K and more
    yesterday(context, 35.9)
    assert "pepper" not in str(scald.scald_line(context))
    yesterday(context, 36.0)
    line = str(scald.scald_line(context))
    assert "sweet pepper" in line and "36 °C yesterday, if today is like it" in line and "Leave its leaves on" in line
    type_forecast(context, date(2026, 7, 22), 30.0)
    assert "pepper" not in str(scald.scald_line(context))


def test_fruit_bared_this_week_scalds_in_less_heat(context, fruiting, monkeypatch) -> None:
    yesterday(context, 30.0)
    assert scald.scald_line(context) is None
    monkeypatch.setattr(scald, "_newly_bared", lambda *_: True)
    assert "sweet pepper" in str(scald.scald_line(context))
