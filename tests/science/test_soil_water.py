"""The bucket against FAO-56, chapter 8, and a closed form."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.soil_water import (
    Store,
    WaterDay,
    balances,
    easy_share_frac,
    stress_frac,
    swing_frac,
)


def filled_shares(store: Store, days: list[WaterDay], depletion_mm: float = 0.0) -> list[float]:
    """The share of the store that is filled at the end of each day."""
    return [1.0 - day.depletion_mm / store.total_mm for day in balances(store, days, depletion_mm)]


@pytest.mark.parametrize(("et_mm", "share"), [(2.0, 0.52), (5.0, 0.40), (8.0, 0.28)])
def test_the_easy_share_falls_as_the_day_asks_more(et_mm, share) -> None:
    assert easy_share_frac(0.40, et_mm) == pytest.approx(share)  # FAO-56 table 22, footnote


@pytest.mark.parametrize(("depletion", "ks"), [(54.4, 1.0), (80.0, 0.686), (120.0, 0.196), (136.0, 0.0)])
def test_stress_on_silt(depletion, ks) -> None:
    assert stress_frac(depletion, 136.0, 0.40) == pytest.approx(ks, abs=5e-4)  # FAO-56 eq. 84


def test_a_bed_left_dry_follows_the_closed_form() -> None:
    """FAO-56 example 37's pattern: with a constant 6 mm/d the rest shrinks by one factor a day."""
    easy = 0.40 - 0.04 * (5.0 - 6.0)  # so that the day's share is 0.40 at 6 mm/d
    shares = filled_shares(Store(136.0, easy), [WaterDay(0.0, 6.0)] * 10, 55.0)
    assert shares[-1] * 136.0 == pytest.approx(81.0 * (1.0 - 6.0 / 81.6) ** 10, abs=1e-6)


@pytest.mark.table("soil_water_week")
def test_a_week_with_rain_irrigation_and_stress_day_by_day(row, printed) -> None:
    day = WaterDay(float(row["rain_mm"]), 1.15 * float(row["et_mm"]), irrigation_mm=float(row["irrigation_mm"]))
    (found,) = balances(Store(96.0, 0.40, follows_use=False), [day], float(row["start_mm"]))
    assert found.stress_frac == printed(row["stress"])
    assert found.taken_mm == printed(row["taken_mm"])
    assert found.drained_mm == printed(row["drained_mm"])
    assert found.depletion_mm == pytest.approx(float(row["end_mm"]), abs=0.002)


def test_a_bed_under_stress_day_by_day() -> None:
    """FAO-56 example 37's pattern (inputs from memory, computed): Ks of ten days from the depletion at their start."""
    store = Store(136.0, 0.40, follows_use=False)
    found = balances(store, [WaterDay(0.0, 6.0)] * 10, 55.0)
    expected = [0.9926, 0.9197, 0.8520, 0.7894, 0.7313, 0.6776, 0.6277, 0.5816, 0.5388, 0.4992]
    assert [day.stress_frac for day in found] == [pytest.approx(ks, abs=5e-5) for ks in expected]
    assert found[-1].depletion_mm == pytest.approx(98.26004, abs=5e-6)


def test_an_open_code_s_bucket_stresses_from_the_day_after() -> None:
    """From the tests of an open FAO-56 bucket: TAW 73.5, p 0.5; depletion 37.746 gives Ks 0.973 on the next day."""
    start = 1000.0 * (0.287 - 0.218956) * 0.5
    found = balances(Store(73.5, 0.5, follows_use=False), [WaterDay(0.0, 3.724), WaterDay(0.0, 3.906)], start)
    assert [day.depletion_mm for day in found] == [pytest.approx(37.746, abs=1e-3), pytest.approx(41.546, abs=1e-3)]
    assert [day.stress_frac for day in found] == [1.0, pytest.approx(0.973, abs=5e-4)]


def test_what_rain_leaves_over_after_the_crop_took_its_share_drains_away() -> None:
    """FAO-56 eq. 88: 30 mm on a store that lacks 10 while the crop takes 5 loses 15."""
    (found,) = balances(Store(100.0, 0.5), [WaterDay(30.0, 5.0)], 10.0)
    assert (found.drained_mm, found.depletion_mm) == (pytest.approx(15.0), 0.0)
    (watered,) = balances(Store(100.0, 0.5), [WaterDay(0.0, 5.0, watered=True)], 10.0)
    assert (watered.drained_mm, watered.depletion_mm) == (None, 5.0)


def test_watering_fills_and_rain_beyond_full_drains_away() -> None:
    store = Store(50.0, 0.5)
    assert filled_shares(store, [WaterDay(0.0, 0.0, watered=True)], 40.0) == [1.0]
    assert filled_shares(store, [WaterDay(90.0, 0.0)], 40.0) == [1.0]


def test_a_tub_swings_further_than_a_bed_in_the_same_weather() -> None:
    days = [WaterDay(0.0, 5.0)] * 3 + [WaterDay(0.0, 5.0, watered=True)] + [WaterDay(0.0, 5.0)] * 2
    tub, bed = (swing_frac(filled_shares(Store(total, 0.4), days)) for total in (20.0, 120.0))
    assert tub is not None and bed is not None and tub > 3 * bed


@given(st.lists(st.tuples(st.floats(0, 60), st.floats(0, 12), st.booleans()), max_size=30), st.floats(0, 80))
def test_the_store_is_never_more_than_full_or_less_than_empty(days, depletion) -> None:
    shares = filled_shares(Store(80.0, 0.4), [WaterDay(*day) for day in days], depletion)
    assert all(-1e-9 <= share <= 1.0 + 1e-9 for share in shares)
    assert swing_frac([]) is None


def test_rain_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="rain_mm"):
        balances(Store(80.0, 0.4), [WaterDay(-1.0, 5.0)])
    with pytest.raises(ValueError, match="irrigation_mm"):
        balances(Store(80.0, 0.4), [WaterDay(0.0, 5.0, irrigation_mm=-1.0)])
