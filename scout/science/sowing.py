"""The last day on which a crop can still be sown."""

from datetime import date, timedelta

from scout.science.limits import require_count

FALL_FACTOR_D = 14
"""Autumn days are short and cool: a crop takes about two weeks longer."""
TENDER_D = 14
"""For crops that frost kills, two more weeks, so that picking ends before it."""


def last_sowing_date(
    first_frost: date,
    maturity_d: int,
    harvest_d: int,
    fall_factor_d: int = FALL_FACTOR_D,
    tender_d: int = 0,
    tray_d: int = 0,
) -> date:
    """Return the last sowing day, counted back from the average first autumn frost.

    maturity_d: days to the first picking, from sowing, or from setting out with tray_d days in the tray
    before it; harvest_d: days one wants to pick; tender_d: TENDER_D for what frost kills, else 0. A day before
    today means "too late". Heat at sowing (seed that will not come up in hot soil) is not looked at.
    Raises ValueError for a negative number of days, or no days to maturity.
    Source: Virginia Cooperative Extension, fall vegetable planting; the same sum in extension talks.
    """
    require_count("maturity_d", maturity_d, 1)
    parts = {"harvest_d": harvest_d, "fall_factor_d": fall_factor_d, "tender_d": tender_d, "tray_d": tray_d}
    for name, days in parts.items():
        require_count(name, days)
    return first_frost - timedelta(days=maturity_d + sum(parts.values()))
