"""Disease curves: area, speed, doubling, and what removal buys."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.epidemic import (
    Model,
    audpc,
    audps,
    doubling_time_d,
    sanitation_delay_d,
    two_point_rate_per_d,
)

Row = dict[str, str]
Printed = Callable[[str], object]
MODELS: tuple[Model, ...] = ("exponential", "monomolecular", "logistic", "gompertz")
share = st.floats(0.001, 0.999)


@pytest.mark.table("audpc")
def test_areas_under_curve_and_stairs(row: Row) -> None:
    day_d, severity_pct = ([float(item) for item in row[key].split()] for key in ("days_d", "severity_pct"))
    assert audpc(day_d, severity_pct) == pytest.approx(float(row["audpc"]), abs=0.05)
    assert audps(day_d, severity_pct) == pytest.approx(float(row["audps"]), abs=0.05)


@given(st.lists(st.floats(0, 100), min_size=2, max_size=12), st.integers(1, 10))
def test_equal_steps_make_the_stairs_one_step_times_the_sum(severity: list[float], step: int) -> None:
    days = [float(step * index) for index in range(len(severity))]
    assert audps(days, severity) == pytest.approx(step * math.fsum(severity), rel=1e-9, abs=1e-9)
    assert audpc(days, severity) <= 100.0 * days[-1] + 1e-9


@pytest.mark.parametrize(
    ("days", "severity", "reason"),
    [
        ([0.0], [5.0], "at least two looks"),
        ([], [], "at least two looks"),
        ([0.0, 7.0], [5.0], "2 days but 1 severities"),
        ([7.0, 0.0], [5.0, 6.0], "must rise"),
        ([0.0, 0.0], [5.0, 6.0], "must rise"),
        ([0.0, 7.0], [5.0, 101.0], "severity_pct"),
        ([0.0, 7.0], [math.nan, 10.0], "severity_pct"),
    ],
)
def test_curves_that_have_no_area_are_refused(days: list[float], severity: list[float], reason: str) -> None:
    for area in (audpc, audps):
        with pytest.raises(ValueError, match=reason):
            area(days, severity)


@pytest.mark.table("two_point_rates")
def test_rates_between_two_looks(row: Row, printed: Printed) -> None:
    elapsed_d = float(row["second_d"]) - float(row["first_d"])
    for model in MODELS:
        rate = two_point_rate_per_d(float(row["first_frac"]), float(row["second_frac"]), elapsed_d, model)
        assert rate == printed(row[model]), model


@given(share, share, st.floats(0.5, 60.0))
def test_logistic_rate_is_the_sum_of_two_others(first: float, second: float, elapsed_d: float) -> None:
    # ln[y/(1 - y)] = ln y + ln[1/(1 - y)]: holds exactly for any two points.
    logistic, exponential, monomolecular = (
        two_point_rate_per_d(first, second, elapsed_d, model) for model in ("logistic", "exponential", "monomolecular")
    )
    assert logistic == pytest.approx(exponential + monomolecular, rel=1e-9, abs=1e-9)


@given(share, share)
def test_every_rate_has_the_sign_of_the_change(first: float, second: float) -> None:
    for model in MODELS:
        rate = two_point_rate_per_d(first, second, 7.0, model)
        if abs(second - first) > 1e-9:
            assert (rate > 0) == (second > first)
        assert two_point_rate_per_d(first, first, 7.0, model) == 0.0


@pytest.mark.parametrize("bad", [0.0, 1.0, -0.1, 1.2, 30.0, math.nan])
def test_none_and_all_have_no_rate(bad: float) -> None:
    with pytest.raises(ValueError, match="first_frac"):
        two_point_rate_per_d(bad, 0.5, 7.0, "logistic")
    with pytest.raises(ValueError, match="second_frac"):
        two_point_rate_per_d(0.5, bad, 7.0, "logistic")


@pytest.mark.parametrize("elapsed_d", [0.0, -7.0, math.nan, math.inf])
def test_no_time_between_looks_has_no_rate(elapsed_d: float) -> None:
    with pytest.raises(ValueError, match="elapsed_d"):
        two_point_rate_per_d(0.1, 0.5, elapsed_d, "logistic")


@pytest.mark.parametrize(("rate", "days"), [(0.1, 6.931), (0.2, 3.466), (0.3, 2.310), (0.46, 1.507)])
def test_doubling_time(rate: float, days: float) -> None:
    # ln 2 / r, computed.
    assert doubling_time_d(rate) == pytest.approx(days, abs=5e-4)


@pytest.mark.parametrize(
    ("removed", "rate", "days"),
    # ln(k)/r (Vanderplank 1963, formula from memory; values computed).
    [(0.5, 0.2, 3.47), (0.8, 0.2, 8.05), (0.9, 0.2, 11.51), (0.99, 0.2, 23.03), (0.9, 0.4, 5.76), (0.8, 0.1, 16.09)],
)
def test_days_bought_by_removing_a_share(removed: float, rate: float, days: float) -> None:
    assert sanitation_delay_d(removed, rate) == pytest.approx(days, abs=0.005)


def test_removing_half_buys_exactly_one_doubling_time() -> None:
    assert sanitation_delay_d(0.5, 0.17) == pytest.approx(doubling_time_d(0.17), rel=1e-12)
    assert sanitation_delay_d(0.0, 0.17) == 0.0


def test_control_values_buy_time_in_the_ratio_8_4_2_1() -> None:
    # 93.75, 75, 50 and 29.29 % killed: each needs twice the recovery time of the next (published note on control
    # values, abstract).
    delays = [sanitation_delay_d(killed, 0.2) for killed in (0.9375, 0.75, 0.5, 1 - math.sqrt(0.5))]
    assert delays == pytest.approx([8 * delays[3], 4 * delays[3], 2 * delays[3], delays[3]], rel=1e-9)


@pytest.mark.parametrize("rate", [0.0, -0.1])
def test_what_does_not_grow_neither_doubles_nor_is_delayed(rate: float) -> None:
    assert doubling_time_d(rate) is None
    assert sanitation_delay_d(0.5, rate) is None


def test_impossible_removals_and_rates_are_refused() -> None:
    for removed in (-0.1, 1.0, 1.1, 80.0, math.nan):
        with pytest.raises(ValueError, match="removed_frac"):
            sanitation_delay_d(removed, 0.2)
    for rate in (math.nan, math.inf):
        with pytest.raises(ValueError, match="rate_per_d"):
            doubling_time_d(rate)
