"""Epidemic figures of a planting: from marked plants, and from what was counted at stops."""

from dataclasses import replace
from datetime import date

import pytest

from scout.services.context import Context
from scout.services.keeping_figures import figures_at, figures_of
from scout.services.keeping_figures_words import as_json, figure_lines
from scout.services.keeping_followed import Followed
from scout.services.marked import MeasuredRow, mark_plant, measure

from ..shipped import shipped_knowledge
from ..small_garden import Clock, plant_of

KNOWN = shipped_knowledge()
DAYS = ("2026-07-01", "2026-07-08", "2026-07-15", "2026-07-22")


def rows(tops: tuple[int, ...], spots: tuple[int, ...]) -> tuple[MeasuredRow, ...]:
    return tuple(
        MeasuredRow(day, "A", top, high, None, None, None, "dry")
        for day, top, high in zip(DAYS, tops, spots, strict=True)
    )


CLIMBING = Followed("Bed/Tomato", rows((20, 20, 20, 20), (1, 4, 8, 16)))


def test_areas_are_those_of_the_share_that_spots_have_reached() -> None:
    found = figures_of(CLIMBING)
    assert [share for _, share in found.reached] == [0.05, 0.2, 0.4, 0.8]
    # Trapezoids of 5, 20, 40, 80 % a week apart: 87.5 + 210 + 420; stairs: 7 days times the sum (equal spacing).
    assert found.audpc == pytest.approx(717.5) and found.audps == pytest.approx(7 * 145.0)
    assert "1015 %-days" in " ".join(figure_lines(found))


def test_stripped_leaves_stay_in_the_curve_and_falling_severity_is_no_progress() -> None:
    low = rows((20, 20, 20, 20), (4, 8, 2, 2))
    found = figures_of(Followed(None, tuple(replace(row, stripped_to=8) if row.on > DAYS[0] else row for row in low)))
    assert [share for _, share in found.reached] == [0.2, 0.4, 0.4, 0.4] and found.stripped


def test_best_curve_rate_doubling_and_days_bought_are_told() -> None:
    text = " ".join(figure_lines(figures_of(CLIMBING)))
    assert "the likeliest of three curves on 4 visits" in text and "Doubling time" in text
    assert "It delays, it never ends it." in text
    plain = as_json(figures_of(CLIMBING))
    assert plain["best"] == plain["rates"][0]["model"] and len(plain["rates"]) == 3
    # ln 2 / r for half, ln 5 / r for four fifths (Vanderplank 1963).
    half, most = (one["days"] for one in plain["days_bought"])
    assert half == pytest.approx(plain["doubling_days"]) and most / half == pytest.approx(2.321928, abs=1e-6)


def test_what_does_not_grow_buys_nothing_and_few_visits_give_no_rate() -> None:
    still = " ".join(figure_lines(figures_of(Followed(None, rows((20, 20, 20, 20), (8, 8, 8, 8))))))
    assert "not growing" in still and "days bought" not in still
    two = " ".join(figure_lines(figures_of(Followed(None, CLIMBING.rows[:2]))))
    assert "needs three visits" in two
    assert figure_lines(figures_of(Followed(None, ())))[0].startswith("No spot was measured")


def test_where_stripping_is_not_the_measure_that_is_said_first() -> None:
    cause = next(c for c in KNOWN.causes.values() if c.kind == "bacterial")
    assert "not the measure" in figure_lines(figures_of(replace(CLIMBING, causes=(cause,))))[0]


def test_plants_counted_at_stops_get_wilson_limits_and_severity_a_warning(context: Context, clock: Clock) -> None:
    plant = plant_of(context)
    mark = mark_plant(context, plant.planting_id, "red", "indeterminate")
    for day, high, strip, pct in ((1, 3, 0, 12.0), (8, 5, 3, 4.0)):
        clock.on(7, day)
        measure(context, mark, top_leaf=16, highest_diseased=high, stripped_to=strip, severity_pct=pct)
    from scout.store.tables_walk import Finding

    at, offset = context.moment()
    with context.write() as tx:
        tx.add(
            Finding, planting_id=plant.planting_id, symptom="leaf.ringed_spots", state="seen", looked_n=20,
            affected_n=18, manner="look", observed_at=at, observed_offset_min=offset,
        )  # fmt: skip
    found = figures_at(context, plant)
    (one,) = found.incidence
    # Wilson 18/20: 0.698966 to 0.972134 (statsmodels tests, values from R binom).
    assert (one.low_frac, one.high_frac) == pytest.approx((0.698966, 0.972134), abs=1e-6)
    assert one.on == date(2026, 7, 8)
    text = figure_lines(found)
    assert any("on 18 of 20 plants, 90 % (70 to 97, 95 %)" in line for line in text)
    assert text[-1].startswith("Leaves were stripped here, so a falling area of spots shows nothing")
