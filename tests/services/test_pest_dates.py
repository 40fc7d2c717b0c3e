"""Pest stages by degree days as reasons to look."""

from datetime import date, timedelta

import pytest

from scout.services import garden, site, walk
from scout.services.context import Context
from scout.services.dues import dues
from scout.services.pest_dates import STILL_D, pest_reasons
from scout.services.plan import walk_plan
from scout.services.warmth import pest_counts
from scout.store.weather import set_day

from ..small_garden import Clock

NEW_YORK = "America/New_York"


@pytest.fixture
def warm(tmp_path, knowledge, clock: Clock) -> Context:
    """Squash in a zone where the figures hold, with every day since New Year at 10 to 20 °C."""
    context = Context(tmp_path / "warm", clock=clock)
    context.__dict__["knowledge"] = knowledge
    site.create_garden(context, "Warm", zone=NEW_YORK, latitude=40.0)
    bed = garden.add_bed(context, "Squash bed")
    garden.add_planting(context, (bed,), "summer_squash", plants_n=4, sown_on="2026-03-01")
    mild_since_new_year(context)
    return context


def mild_since_new_year(context: Context) -> None:
    with context.write() as tx:
        for n in range(203):
            on = (date(2026, 1, 1) + timedelta(days=n)).isoformat()
            set_day(tx, station="here", on=on, kind="observed", basis="typed", tmax_c=20.0, tmin_c=10.0)


def borer(context: Context):
    return next(one for one in pest_counts(context) if one.cause == "squash_vine_borer" and one.since is not None)


def test_a_stage_lately_reached_is_a_reason_dated_by_its_day(warm, clock: Clock) -> None:
    # Base 50 °F (10 °C) from its file: 5 degree days a day reach the moths' 555.6 on the 112th day, 22 April.
    clock.on(4, 24)
    assert borer(warm).events[0].on == date(2026, 4, 22)
    (reason,) = pest_reasons(warm)["summer_squash"]
    assert (reason.on, reason.kind) == (date(2026, 4, 22), "pest")
    assert reason.why == "squash vine borer: moths come out of the soil about 22 April, by warmth"


def test_the_next_stage_is_dated_at_the_pace_of_the_last_week(warm, clock: Clock) -> None:
    clock.on(4, 19)
    (reason,) = pest_reasons(warm)["summer_squash"]
    assert reason.why.startswith("squash vine borer: moths come out of the soil expected about 2")
    assert abs((reason.on - date(2026, 4, 22)).days) <= 1


def test_a_stage_long_past_is_no_reason_any_more(warm, clock: Clock) -> None:
    clock.now = clock.now.replace(month=4, day=22) + timedelta(days=STILL_D + 1)
    assert "summer_squash" not in pest_reasons(warm)


def test_a_visit_after_the_stage_answers_it(warm, clock: Clock) -> None:
    clock.on(4, 20)
    walk.start(warm, walk_plan(warm).stops)
    while (stop := walk.current_stop(warm)) is not None:
        walk.clear(warm, stop.id, "glance", 4)
    clock.on(4, 24)
    (squash,) = dues(warm)
    assert (squash.due.on, squash.due.kind) == (date(2026, 4, 22), "pest")
    walk.start(warm, walk_plan(warm).stops)
    while (stop := walk.current_stop(warm)) is not None:
        walk.clear(warm, stop.id, "glance", 4)
    (squash,) = dues(warm)
    assert squash.due.kind != "pest"


def test_where_the_figures_were_not_made_nothing_is_told(warm, clock: Clock, tmp_path, knowledge) -> None:
    clock.on(4, 24)
    elsewhere = Context(tmp_path / "elsewhere", clock=clock)
    elsewhere.__dict__["knowledge"] = knowledge
    site.create_garden(elsewhere, "Elsewhere", zone="Europe/Berlin", latitude=52.0)
    bed = garden.add_bed(elsewhere, "Bed")
    garden.add_planting(elsewhere, (bed,), "summer_squash", sown_on="2026-03-01")
    mild_since_new_year(elsewhere)
    assert pest_reasons(elsewhere) == {}
