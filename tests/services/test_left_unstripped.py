"""Where one plant may be left unstripped to compare, and where it comes in the order."""

import pytest

from scout.services.context import Context
from scout.services.marked import mark_plant, marked_plants, may_stay_unstripped

from ..small_garden import plant_of


def opened(context: Context, *causes: str) -> str:
    from scout.store.tables_follow import Trouble

    plant = plant_of(context)
    with context.write() as tx:
        for cause in causes:
            tx.add(
                Trouble, planting_id=plant.planting_id, cause=cause, title=cause, opened_on="2026-07-01", state="open"
            )
    return plant.planting_id


@pytest.mark.parametrize(
    ("causes", "may"),
    [
        ((), False),
        (("septoria_leaf_spot",), True),
        (("septoria_leaf_spot", "early_blight"), True),
        (("early_blight", "late_blight"), False),
        (("bacterial_spot",), False),
    ],
)
def test_only_where_septoria_and_early_blight_are_all_that_is_open(
    context: Context, causes: tuple[str, ...], may: bool
) -> None:
    assert set(causes) <= set(context.knowledge.causes)
    assert may_stay_unstripped(context, opened(context, *causes)) is may


def test_at_most_one_is_left_and_it_is_measured_last(context: Context) -> None:
    planting = opened(context, "early_blight")
    mark_plant(context, planting, "left", "indeterminate", control=True)
    mark_plant(context, planting, "red", "indeterminate")
    assert [plant.label for plant in marked_plants(context, planting)] == ["red", "left"]
    assert not may_stay_unstripped(context, planting)
