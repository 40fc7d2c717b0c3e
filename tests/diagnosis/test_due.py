"""The next look of a planting: the soonest of every dated reason, said in plain words."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.diagnosis.due import MOST_LATE, Reason, group_of, next_look
from scout.diagnosis.due_reasons import LookFacts, latent_window_d, reasons_for
from scout.diagnosis.due_weather import CropRisk, RiskDay, crop_risk
from scout.knowledge.base import Knowledge

from ..shipped import shipped_knowledge

TODAY = date(2026, 7, 22)  # a Wednesday
SUNDAY = date(2026, 7, 19)


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return shipped_knowledge()


@pytest.fixture
def tomato(knowledge: Knowledge) -> LookFacts:
    crop = knowledge.crops["tomato"]
    return LookFacts(crop, "leafy", SUNDAY, risk=crop_risk(knowledge, crop))


def nights(*wet: date) -> tuple[RiskDay, ...]:
    return tuple(RiskDay(day, wet_night=True) for day in wet)


def due_of(facts: LookFacts):
    return next_look(reasons_for(facts, TODAY), TODAY)


def test_a_quiet_bed_is_looked_at_a_week_after_the_last_look(tomato) -> None:
    due = due_of(tomato)
    assert (due.on, due.why, due.worth) == (date(2026, 7, 26), "last looked at on 19 July", 0.0)


def test_a_planting_never_looked_at_is_due_now(tomato) -> None:
    assert due_of(replace(tomato, last_on=None)).why == "not looked at yet"


def test_seedlings_are_looked_at_after_three_days(tomato) -> None:
    assert due_of(replace(tomato, stage="seedling")).on == TODAY


def test_a_crop_that_bears_is_looked_at_when_picking_is_due(tomato, knowledge) -> None:
    squash = replace(tomato, crop=knowledge.crops["summer_squash"], stage="fruiting", risk=None)
    due = due_of(squash)
    assert due.why == "picking is due" and due.on == SUNDAY + timedelta(days=squash.crop.pick_every_d or 0)


def test_an_open_problem_is_looked_at_before_it_can_bear_new_spores(tomato, knowledge) -> None:
    # Early blight: infection to spores 3 to 9 days in knowledge/causes/fungal/early_blight.toml, from its source there.
    blight = knowledge.causes["early_blight"]
    assert latent_window_d(blight) == 3 < blight.look_again_d
    due = due_of(replace(tomato, open_causes=(blight,)))
    assert (due.on, due.why) == (TODAY, "open problem: early blight, new spores from 3 days on")


def test_a_slow_cause_keeps_its_own_interval(tomato, knowledge) -> None:
    septoria = knowledge.causes["septoria_leaf_spot"]
    assert (latent_window_d(septoria), septoria.look_again_d) == (14, 5)
    assert due_of(replace(tomato, open_causes=(septoria,))).on == SUNDAY + timedelta(days=5)


def test_three_wet_nights_since_sunday_are_a_reason_with_the_place_to_look(tomato) -> None:
    wet = nights(date(2026, 7, 20), date(2026, 7, 21), TODAY)
    due = due_of(replace(tomato, days=wet))
    assert due.on == TODAY and due.why == "three wet nights since Sunday: lower tomato leaves"


def test_two_wet_nights_are_none(tomato) -> None:
    assert due_of(replace(tomato, days=nights(date(2026, 7, 21), TODAY))).kind == "quiet"


def test_wet_nights_before_the_last_visit_were_answered_by_it(tomato) -> None:
    before = nights(*(SUNDAY - timedelta(days=back) for back in range(6)))
    assert due_of(replace(tomato, days=before)).kind == "quiet"


def test_the_look_waits_until_spots_can_show(tomato, knowledge) -> None:
    # Cercospora of beet: infection to spots 5 days at the quickest, in its file; three wet nights from the 20th on.
    beet = knowledge.crops["beet"]
    wet = nights(date(2026, 7, 20), date(2026, 7, 21), TODAY)
    facts = replace(tomato, crop=beet, risk=crop_risk(knowledge, beet), days=wet)
    assert due_of(facts).on == date(2026, 7, 25)


def test_a_wet_forecast_is_no_wet_night(tomato) -> None:
    told = tuple(replace(day, forecast=True) for day in nights(date(2026, 7, 20), date(2026, 7, 21), TODAY))
    assert due_of(replace(tomato, days=told)).kind == "quiet"


def test_nights_nobody_recorded_count_as_nothing(tomato) -> None:
    unknown = tuple(RiskDay(SUNDAY + timedelta(days=n)) for n in range(1, 4))
    assert due_of(replace(tomato, days=unknown)).kind == "quiet"


def test_severity_values_ask_for_a_look_at_tomato_and_at_nothing_else(tomato, knowledge) -> None:
    warm_wet = tuple(RiskDay(SUNDAY + timedelta(days=n), leaf_spot_n=4) for n in range(1, 4))
    due = due_of(replace(tomato, days=warm_wet))
    # 4 + 4 reach the eight values on the 21st; spots of the 20th can show from the 22nd on (early blight, 2 days).
    assert due.on == date(2026, 7, 22) and due.why.startswith("warm and wet enough for leaf spots since Sunday")
    pepper = knowledge.crops["sweet_pepper"]
    other = replace(tomato, crop=pepper, risk=crop_risk(knowledge, pepper), days=warm_wet)
    assert due_of(other).kind == "quiet"


def test_downy_nights_send_to_the_undersides_of_cucumber_leaves(tomato, knowledge) -> None:
    # Downy mildew of cucurbits: infection to spots 4 days at the quickest, in its file.
    cucumber = knowledge.crops["cucumber"]
    downy = tuple(RiskDay(SUNDAY + timedelta(days=n), downy_night=True) for n in (1, 2))
    due = due_of(replace(tomato, crop=cucumber, risk=crop_risk(knowledge, cucumber), days=downy))
    assert due.on == date(2026, 7, 24)
    assert due.why == "two downy mildew nights since Sunday: undersides of cucumber leaves"


def test_one_weather_is_told_once_for_one_disease(tomato, knowledge) -> None:
    cucumber = knowledge.crops["cucumber"]
    both = tuple(RiskDay(SUNDAY + timedelta(days=n), wet_night=True, downy_night=True) for n in (1, 2, 3))
    facts = replace(tomato, crop=cucumber, risk=crop_risk(knowledge, cucumber), days=both)
    assert [one.why.split(" since")[0] for one in reasons_for(facts, TODAY) if one.kind == "weather"] == [
        "three downy mildew nights"
    ]


def test_a_disease_reported_near_by_means_a_look_a_day(tomato, knowledge) -> None:
    due = due_of(replace(tomato, near=(knowledge.causes["late_blight"],)))
    assert due.on == date(2026, 7, 20) and due.must
    assert due.why == "late blight was reported near here: look daily"


def test_a_tub_is_looked_at_on_a_hot_day_by_the_forecast_too(tomato) -> None:
    hot = (RiskDay(TODAY, tmax_c=36.0, forecast=True),)
    due = due_of(replace(tomato, in_tub=True, days=hot))
    assert (due.on, due.must, due.why) == (TODAY, True, "hot today: a tub can be dry by noon")
    assert due_of(replace(tomato, days=hot)).kind == "quiet"


@pytest.mark.parametrize(("tmax_c", "kinds"), [(31.9, []), (32.0, [False]), (34.9, [False]), (35.0, [True])])
def test_how_hot_it_is_today_says_whether_a_tub_can_wait(tomato, tmax_c: float, kinds: list[bool]) -> None:
    # Our stated limits, 32 and 35 °C; yesterday's heat dries nothing today.
    days = (RiskDay(TODAY - timedelta(days=1), tmax_c=40.0), RiskDay(TODAY, tmax_c=tmax_c))
    found = reasons_for(replace(tomato, in_tub=True, days=days), TODAY)
    assert [one.must for one in found if one.kind == "heat"] == kinds


def test_three_hot_days_send_to_flowers_and_the_sunny_side_of_fruit(tomato) -> None:
    # Tomato flowers fail above 32.2 °C (90 °F) by day: knowledge/crops/tomato.toml and its source.
    hot = tuple(RiskDay(SUNDAY + timedelta(days=n), tmax_c=33.0) for n in (1, 2, 3))
    facts = replace(tomato, stage="fruiting", days=hot)
    (told,) = [reason for reason in reasons_for(facts, TODAY) if reason.kind == "heat"]
    assert told.why == "three hot days since Sunday: flowers, and fruit on the sun side"
    assert told.on == SUNDAY + timedelta(days=3)


def test_two_hot_days_bring_the_pick_of_quick_fruit_a_day_sooner(tomato, knowledge) -> None:
    bean = knowledge.crops["snap_bean"]  # seven to ten days from flower to pick, in its file
    assert bean.pick_every_d == 3
    hot = tuple(RiskDay(SUNDAY + timedelta(days=n), tmax_c=33.0) for n in (1, 2))
    facts = replace(tomato, crop=bean, stage="fruiting", risk=None)
    assert due_of(facts).on == SUNDAY + timedelta(days=3)
    due = due_of(replace(facts, days=hot))
    assert (due.on, due.why) == (SUNDAY + timedelta(days=2), "picking, a day sooner in the heat")
    assert [one.kind for one in reasons_for(replace(facts, days=hot), TODAY)].count("picking") == 1
    slow = replace(facts, crop=tomato.crop, days=hot)
    assert due_of(slow).why == "picking is due"


def test_a_pest_stage_dated_elsewhere_is_a_reason_like_any_other(tomato) -> None:
    hatch = Reason(date(2026, 7, 21), "squash bug eggs hatch about now", "pest", stake=2.0)
    assert due_of(replace(tomato, given=(hatch,))).why == "squash bug eggs hatch about now"


REASONS = st.lists(
    st.builds(
        Reason,
        on=st.dates(date(2026, 6, 1), date(2026, 8, 31)),
        why=st.text(min_size=1, max_size=5),
        kind=st.just("quiet"),
        stake=st.floats(0.5, 6.0),
        risk=st.floats(1.0, 2.0),
        every_d=st.integers(1, 14),
    ),
    min_size=1,
    max_size=8,
)


@given(REASONS, st.dates(date(2026, 6, 1), date(2026, 8, 31)))
def test_the_next_look_is_the_soonest_reason_and_worth_nothing_before_it(reasons: list[Reason], on: date) -> None:
    due = next_look(tuple(reasons), on)
    assert due.on == min(reason.on for reason in reasons)
    assert (due.worth > 0.0) == (due.on <= on)


@given(REASONS, st.dates(date(2026, 6, 1), date(2026, 8, 31)))
def test_waiting_never_makes_a_look_worth_less_and_has_a_bound(reasons: list[Reason], on: date) -> None:
    today, later = next_look(tuple(reasons), on), next_look(tuple(reasons), on + timedelta(days=1))
    assert later.worth >= today.worth
    assert later.worth <= sum(MOST_LATE * reason.stake * reason.risk for reason in reasons) + 1e-9


def test_a_planting_without_any_reason_is_refused() -> None:
    with pytest.raises(ValueError, match="without any reason"):
        next_look((), TODAY)


def test_what_spreads_by_touch_is_suspect(knowledge) -> None:
    causes = knowledge.causes
    assert group_of("fruiting", (causes["early_blight"],)) == "spotted"
    virus = next(cause for cause in causes.values() if cause.kind == "viral")
    assert group_of("fruiting", (causes["early_blight"], virus)) == "suspect"
    assert group_of("seedling", ()) == "seedlings"


def test_every_crop_has_a_place_to_look_after_wet_nights(knowledge) -> None:
    risks: list[CropRisk] = [crop_risk(knowledge, crop) for crop in knowledge.crops.values()]
    assert all(risk.where for risk in risks)
    assert {risk.crop.id for risk in risks if risk.downy} >= {"cucumber", "melon"}
