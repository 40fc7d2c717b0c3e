"""The last sowing day against the rule taught by Virginia Cooperative Extension."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.sowing import TENDER_D, last_sowing_date

Row = dict[str, str]


@pytest.mark.table("sowing")
def test_counted_back_from_the_first_frost(row: Row) -> None:
    names = ("maturity_d", "harvest_d", "fall_factor_d", "tender_d", "tray_d")
    answer = last_sowing_date(date.fromisoformat(row["first_frost"]), **{name: int(row[name]) for name in names})
    assert answer == date.fromisoformat(row["last_sowing"])


def test_autumn_factor_is_two_weeks_unless_said_otherwise() -> None:
    # 25 October, bush bean 55 days, 21 days of picking, tender: 104 days back is 13 July.
    assert last_sowing_date(date(2026, 10, 25), 55, 21, tender_d=TENDER_D) == date(2026, 7, 13)


@given(st.integers(1, 120), st.integers(0, 40), st.integers(1, 30))
def test_a_slower_crop_is_sown_earlier_by_as_much(maturity_d: int, harvest_d: int, slower_d: int) -> None:
    frost = date(2026, 10, 15)
    later, earlier = (last_sowing_date(frost, days, harvest_d) for days in (maturity_d, maturity_d + slower_d))
    assert (later - earlier).days == slower_d


def test_impossible_numbers_of_days_are_refused() -> None:
    with pytest.raises(ValueError, match="maturity_d is 0"):
        last_sowing_date(date(2026, 10, 15), 0, 7)
    with pytest.raises(ValueError, match="tender_d is -14"):
        last_sowing_date(date(2026, 10, 15), 55, 7, tender_d=-14)
