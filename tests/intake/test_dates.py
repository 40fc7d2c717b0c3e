from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.dates import find_order, read_date

DAY = date(2026, 7, 4)


@pytest.mark.parametrize(
    "text",
    [
        "2026-07-04",
        "2026/07/04",
        "2026.07.04",
        "20260704",
        "2026-7-4",
        "4.7.2026",
        "04.07.26",
        "4 Jul 2026",
        "4-Jul-2026",
        "July 4, 2026",
        "Jul 4 2026",
        "4. July 2026",
    ],
)
def test_unmistakable_dates_are_read(text: str) -> None:
    assert read_date(text) == DAY


@pytest.mark.parametrize("text", ["13/07/2026", "07/13/2026"])
def test_a_number_past_the_months_is_the_day(text: str) -> None:
    assert read_date(text) == date(2026, 7, 13)


@pytest.mark.parametrize("text", ["12/07/2026", "07/12/2026", "07/04/2026", "4/7/26", "04-07-2026"])
def test_a_single_date_of_two_readings_is_asked_about(text: str) -> None:
    with pytest.raises(BadInput, match="day/month or month/day"):
        read_date(text)


def test_a_known_order_settles_it() -> None:
    assert read_date("07/04/2026", "mdy") == DAY
    assert read_date("4/7/2026", "dmy") == DAY


@pytest.mark.parametrize(
    "text", ["", "tomorrowish", "2026-02-30", "31.6.2026", "13/13/2026", "1026-07-04", "46204", "2026-07", "4 Foo 2026"]
)
def test_what_is_no_date_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"\.$"):
        read_date(text)


@pytest.mark.parametrize(
    ("texts", "order"),
    [
        (["2026-07-01"], "ymd"),
        (["01.07.2026"], "dmy"),
        (["01/07/2026", "13/07/2026"], "dmy"),
        (["07/01/2026", "07/13/2026"], "mdy"),
        (["01/07/2026", "02/07/2026", "03/07/2026"], "dmy"),
        (["07/01/2026", "07/02/2026", "07/03/2026"], "mdy"),
        (["1 Jul 2026"], "words"),
        ([], "ymd"),
    ],
)
def test_the_order_is_found_from_the_data(texts: list[str], order: str) -> None:
    assert find_order(texts) == order


def test_dates_that_settle_nothing_are_asked_about() -> None:
    with pytest.raises(BadInput, match="no row settles it"):
        find_order(["01/07/2026", "05/07/2026"])


def test_mixed_orders_are_refused() -> None:
    with pytest.raises(BadInput, match="mix"):
        find_order(["13/07/2026", "07/14/2026"])


@given(
    st.dates(date(1990, 1, 1), date(2099, 1, 1)),
    st.integers(20, 60),
    st.sampled_from(["%d/%m/%Y", "%m/%d/%Y", "%d-%m-%Y"]),
)
def test_twenty_days_in_a_row_always_settle_the_order(start: date, days: int, form: str) -> None:
    every = [start + timedelta(days=number) for number in range(days)]
    texts = [day.strftime(form) for day in every]
    order = find_order(texts)
    assert [read_date(text, order) for text in texts] == every
