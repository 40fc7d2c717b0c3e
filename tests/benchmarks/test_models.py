"""Ten years of hours through every weather model, against reading the same hours with `csv` in the same run.

The hours are made up. The budget is our own: the design names none for the models.
"""

import csv
import math
import random
import time
from collections import Counter
from datetime import date, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from scout.knowledge.base import Knowledge
from scout.science.day_of_hours import AirHour, day_of_hours, night_of_hours
from scout.science.evapotranspiration import reference_et_from_temperatures_mm, reference_et_hargreaves_mm
from scout.science.heat_index import heat_class, heat_index_c, in_full_sun_c
from scout.science.humidity import vapour_pressure_deficit_kpa
from scout.science.radiation import extraterrestrial_radiation_mj
from scout.science.severity import downy_mildew_night, humid_day, late_blight_severity_n, leaf_spot_severity_n
from scout.science.soil_water import Store, WaterDay, balances, swing_frac
from scout.science.sunscald import sunscald_risk
from scout.science.warmth_sum import Limits, day_cd, warmth_sum

from .conftest import Times

FIRST, DAYS_N = date(2016, 1, 1), 3653
LATITUDE_DEG, ALTITUDE_M = 40.0, 100.0
TIMES_CSV_MOST = 12.0
"""Ten years of every model in at most so many readings of their file. Our choice: some seconds, once."""
ROUNDS = 3


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ten years of hours: a year's wave, a day's wave, weather for a few days, rain now and then."""
    dice = random.Random(20261125)
    path = tmp_path_factory.mktemp("hours") / "hours.csv"
    rows, mood = [], 0.0
    for step in range(DAYS_N):
        on = datetime.combine(FIRST, datetime.min.time()) + timedelta(days=step)
        mood = 0.7 * mood + dice.gauss(0.0, 2.0)
        mean = 12.0 - 13.0 * math.cos(2.0 * math.pi * on.timetuple().tm_yday / 365.25) + mood
        rainy = dice.random() < 0.3
        for hour in range(24):
            wave = math.cos(2.0 * math.pi * (hour - 15) / 24.0)
            rain = round(dice.expovariate(1.0), 1) if rainy and dice.random() < 0.2 else 0.0
            humid = min(100.0, max(20.0, 72.0 - 22.0 * wave + (12.0 if rainy else 0.0)))
            wind = round(1.0 + dice.random() * 3.0, 1)
            rows.append((f"{on:%Y-%m-%d}T{hour:02d}:00", round(mean + 6.0 * wave, 1), round(humid), rain, wind))
    with path.open("w", newline="", encoding="utf-8") as out:
        csv.writer(out).writerows([("time", "temp_c", "rh_pct", "rain_mm", "wind_ms"), *rows])
    return path


def read(file: Path) -> list[tuple[str, float, float, float, float]]:
    """The plain way: every row of the file as numbers."""
    with file.open(newline="", encoding="utf-8") as lines:
        rows = csv.reader(lines)
        next(rows)
        return [(at, float(t), float(rh), float(rain), float(wind)) for at, t, rh, rain, wind in rows]


def by_day(rows: list[tuple[str, float, float, float, float]]) -> list[list[AirHour]]:
    hours = [AirHour(int(at[11:13]), t, rh, rain, wind) for at, t, rh, rain, wind in rows]
    return [hours[n : n + 24] for n in range(0, len(hours), 24)]


def models_of_a_day(before: list[AirHour], today: list[AirHour], day_n: int, told: Counter[str]) -> tuple[float, ...]:
    """Every model of one day; returns high, low, rain and the reference evapotranspiration."""
    found, night = day_of_hours(today), night_of_hours(before, today)
    assert found.tmax_c is not None and found.tmin_c is not None and found.rain_mm is not None
    assert found.wet is not None and found.humid_h is not None
    high, low = found.tmax_c, found.tmin_c
    if found.wet.mean_c is not None:
        told["leaf_spot"] += leaf_spot_severity_n(found.wet.wet_h, found.wet.mean_c)
    if found.humid_mean_c is not None:
        told["late_blight"] += late_blight_severity_n(found.humid_h, found.humid_mean_c)
    told["humid_days"] += humid_day(low, found.humid_h)
    if night is not None and night.mean_c is not None:
        told["downy_nights"] += downy_mildew_night(night.wet_h, night.mean_c)
    told["bee_hours"] += found.bee_hours_h or 0
    for one in today:
        assert one.t_c is not None and one.rh_pct is not None
        in_sun = heat_class(in_full_sun_c(heat_index_c(one.t_c, one.rh_pct)))
        told["danger_hours"] += in_sun in ("danger", "extreme_danger")
        told["dry_air_hours"] += vapour_pressure_deficit_kpa(one.t_c, one.rh_pct) > 2.0
    told["scald_days"] += sunscald_risk("tomato", high, newly_bared=False) == "likely"
    year_day = day_n % 365 + 1
    reference_et_from_temperatures_mm(high, low, LATITUDE_DEG, year_day, ALTITUDE_M)
    above = extraterrestrial_radiation_mj(LATITUDE_DEG, year_day)
    return high, low, found.rain_mm, reference_et_hargreaves_mm(high, low, above)


def every_model(days: list[list[AirHour]], limits: list[Limits]) -> Counter[str]:
    """Ten years: each day's models, then the sums that run over days."""
    told: Counter[str] = Counter()
    daily = [models_of_a_day(before, today, n, told) for n, (before, today) in enumerate(pairwise(days), 1)]
    for number, limit in enumerate(limits):
        told[f"warmth_{number}"] = round(warmth_sum([day_cd(low, high, limit) for high, low, _, _ in daily]).sure_cd)
    water = [WaterDay(rain, et) for _, _, rain, et in daily]
    for name, store in (("bed", Store(105.0, 0.4)), ("tub", Store(25.0, 0.4))):
        shares = [1.0 - day.depletion_mm / store.total_mm for day in balances(store, water)]
        told[f"{name}_swings"] = sum((swing_frac(shares[n : n + 7]) or 0.0) >= 0.5 for n in range(len(shares) - 6))
    return told


def timed(act, *given) -> Times:  # type: ignore[no-untyped-def]
    seconds = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        act(*given)
        seconds.append(time.perf_counter() - began)
    return Times(seconds)


def test_ten_years_of_every_model(benchmark, tell, file: Path, knowledge: Knowledge) -> None:  # type: ignore[no-untyped-def]
    counts = [count for cause in knowledge.causes.values() for count in cause.degree_days]
    limits = [Limits(count.base_c, count.upper_c, count.method) for count in counts]
    days = by_day(read(file))
    assert len(days) == DAYS_N
    plain = timed(read, file)
    told = benchmark.pedantic(every_model, args=(days, limits), rounds=ROUNDS)
    assert min(told[name] for name in ("leaf_spot", "downy_nights", "bee_hours", "danger_hours", "tub_swings")) > 0
    took_ms = 1000 * benchmark.stats.stats.median
    ratio = took_ms / plain.median_ms
    tell(models_ms=took_ms, csv_ms=plain.median_ms, ratio=ratio, most=TIMES_CSV_MOST)
    assert ratio <= TIMES_CSV_MOST
