"""What the hand felt unlocks the knife or stops it, for today; a forecast with a gap never says that no heat comes."""

from datetime import date

from scout.services import marked
from scout.services.felt import feel_leaves, leaves_felt_dry
from scout.services.garden import planted
from scout.services.keeping_knife import knife_today
from scout.services.weather import heat_ahead, type_forecast


def plant_of(context):
    return next(one for one in planted(context) if one.crop.id == "cucumber")


def test_what_is_felt_holds_for_today_and_wet_stops_the_knife(context, clock) -> None:
    plant = plant_of(context)
    assert leaves_felt_dry(context, plant) is None
    feel_leaves(context, plant.planting_id, dry=False)
    assert leaves_felt_dry(context, plant) is False
    assert "The leaves are wet" in knife_today(context, plant).reasons[0]
    clock.on(7, 23)
    assert leaves_felt_dry(context, plant) is None


def test_the_newer_of_hand_and_measurement_holds_and_of_one_minute_wet(context, clock) -> None:
    plant = plant_of(context)
    tag = marked.mark_plant(context, plant.planting_id, "1st", "indeterminate")
    feel_leaves(context, plant.planting_id, dry=False)
    marked.measure(context, tag, top_leaf=9, wet="dry")
    assert leaves_felt_dry(context, plant) is False
    clock.on(7, 22, 15)
    marked.measure(context, tag, top_leaf=9, wet="dry")
    assert leaves_felt_dry(context, plant) is True
    clock.on(7, 22, 16)
    feel_leaves(context, plant.planting_id, dry=False)
    assert leaves_felt_dry(context, plant) is False


def test_no_heat_ahead_needs_both_days_to_come_and_one_hot_day_is_enough(context) -> None:
    assert heat_ahead(context) is None
    type_forecast(context, date(2026, 7, 23), 29.0)
    assert heat_ahead(context) is None
    type_forecast(context, date(2026, 7, 24), 30.0)
    assert heat_ahead(context) is False
    type_forecast(context, date(2026, 7, 24), 36.0)
    assert heat_ahead(context) is True
