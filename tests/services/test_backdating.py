"""The answer in words with its days, the size of the odd fruit, and the gaps that are coming."""

from datetime import date, timedelta

import pytest

from scout.errors import BadInput
from scout.services import garden, walk
from scout.services.causes import cause_page, causes_at
from scout.services.fruit_size import give_size, size_of, sizes_at
from scout.services.gaps import gap_line, gaps_ahead
from scout.services.garden import planted
from scout.services.no_disease import no_disease
from scout.services.plan import walk_plan
from scout.services.undo import undo
from scout.services.weather import HERE

from ..small_garden import plant_of

HOT = range(8, 13)
"""8-12 July, 37 °C by day and 26 °C by night; other days 29 and 19 °C."""


def summer(context, last: date, days_n: int = 70) -> None:
    from scout.store.weather import set_day

    with context.write() as tx:
        for back in range(days_n):
            on = last - timedelta(days=back)
            high, low = (37.0, 26.0) if on.month == 7 and on.day in HOT else (29.0, 19.0)
            set_day(
                tx,
                station=HERE,
                on=on.isoformat(),
                kind="observed",
                basis="station",
                tmax_c=high,
                tmin_c=low,
                rain_mm=0.0,
            )


def at_crop(context, crop: str) -> str:
    """Begin a walk to the plantings of that crop alone and return its stop."""
    ids = {plant.planting_id for plant in planted(context) if plant.crop.id == crop}
    walk.start(context, tuple(stop for stop in walk_plan(context, everything=True).stops if stop.planting_id in ids))
    return walk.current_stop(context).id


def with_tomatoes(context, last: date) -> None:
    """The small garden has none: set out on 10 May, in flower from early June."""
    context.on = last
    garden.add_planting(context, (garden.bed_names(context)[0][0],), "tomato", plants_n=4, set_out_on="2026-05-10")
    summer(context, last)


def odd_cucumber(context) -> str:
    from scout.services.answers import add_finding

    summer(context, context.today)
    stop = at_crop(context, "cucumber")
    add_finding(context, stop, "fruit.pinched_blossom_end", "look", looked_n=6)
    add_finding(context, stop, "fruit.seeds_missing_where_thin", "asked", looked_n=3)
    return stop


def test_the_answer_names_the_days_and_what_was_not_looked_at(context) -> None:
    found = causes_at(context, odd_cucumber(context))
    assert found.headline == "Very likely heat while it was in flower, 8-12 July."
    assert found.disease == (
        "No sign of disease so far, but no leaf was looked at: newest leaves and undersides of leaves first.",
    )


def test_what_was_looked_at_is_named_no_more(context) -> None:
    from scout.services.answers import add_finding

    stop = odd_cucumber(context)
    add_finding(context, stop, "leaf.mosaic", "asked", state="not_seen", looked_n=6)
    (disease,) = causes_at(context, stop).disease
    assert disease.startswith("No sign of disease in what you looked at (")
    assert "newest leaves" not in disease and "undersides of leaves" in disease


def test_a_living_cause_in_the_lead_gets_no_all_clear(context) -> None:
    from scout.services.answers import add_finding

    summer(context, context.today)
    stop = at_crop(context, "cucumber")
    add_finding(context, stop, "leaf.white_powder", "look", looked_n=6)
    add_finding(context, stop, "leaf.white_powder_beneath", "look", looked_n=6)
    found = causes_at(context, stop)
    assert "powdery mildew" in found.headline and found.disease == ()


@pytest.mark.parametrize(
    ("looked", "missed", "said"),
    [
        (["newest leaves"], [], "No sign of disease in what you looked at."),
        (
            ["tips"],
            ["newest leaves"],
            "No sign of disease in what you looked at (newest leaves: not looked at).",
        ),
        ([], ["newest leaves"], "No sign of disease so far, but no leaf was looked at: newest leaves first."),
    ],
)
def test_nothing_unseen_is_called_clean(looked: list[str], missed: list[str], said: str) -> None:
    assert no_disease(looked, missed) == said


def test_the_size_is_asked_once_and_narrows_the_strip(context) -> None:
    stop = odd_cucumber(context)
    before = causes_at(context, stop)
    assert before.size is not None
    rows, length = sizes_at(context, stop)
    assert [row.text for row in rows] == [
        "small, up to 8 cm",
        "half grown, up to 14 cm",
        "full length, over 14 cm",
        "overgrown, fat or yellow",
    ]
    assert length == "12 cm"
    strip = _strip(context, stop)
    assert give_size(context, stop, "12 cm") == "The odd fruit: half grown, up to 14 cm."
    assert len(_strip(context, stop)) < len(strip)
    assert causes_at(context, stop).size is None


def _strip(context, stop: str) -> str:
    lines = cause_page(context, stop, "heat_misshapen_cucurbit").lines
    return next((line for line in lines if line and set(line) <= {"#", ".", "?"}), "")


def test_a_new_size_takes_the_place_of_the_old_one_and_is_undone_in_one_step(context) -> None:
    stop = odd_cucumber(context)
    plant = plant_of(context)
    give_size(context, stop, "half")
    give_size(context, stop, "full")
    assert size_of(context, plant) == "fruit_full"
    undo(context)
    assert size_of(context, plant) == "fruit_half"
    undo(context)
    assert size_of(context, plant) is None


def test_a_size_of_last_week_is_of_another_fruit(context) -> None:
    from dataclasses import replace

    stop = odd_cucumber(context)
    give_size(context, stop, "half")
    plant = plant_of(context)
    assert size_of(context, plant) == "fruit_half"
    context.on = context.today + timedelta(days=8)
    assert size_of(context, replace(plant)) is None


@pytest.mark.parametrize("words", ["", "huge", "12 kg", "-3", "0", "900 cm", "1,234 cm"])
def test_what_is_no_size_is_refused_with_a_sentence(context, words: str) -> None:
    with pytest.raises(BadInput):
        give_size(context, odd_cucumber(context), words)


def test_heat_now_is_a_gap_to_come_and_ends_with_dates(context) -> None:
    """Common practice, no source: tomato 6-10 weeks after the heat, cucumber 1-3 weeks; normal set 5-10 days after."""
    with_tomatoes(context, date(2026, 7, 22))
    found = {view.crop_id: view for view in gaps_ahead(context)}
    tomato, cucumber = found["tomato"], found["cucumber"]
    assert (tomato.hot_from, tomato.hot_until, tomato.over) == ("2026-07-08", "2026-07-12", True)
    assert date(2026, 7, 8) + timedelta(weeks=6) <= date.fromisoformat(tomato.gap_from)
    assert date.fromisoformat(tomato.gap_until) <= date(2026, 7, 12) + timedelta(weeks=10)
    assert date(2026, 7, 8) + timedelta(weeks=1) <= date.fromisoformat(cucumber.gap_from)
    assert date.fromisoformat(cucumber.gap_until) <= date(2026, 7, 12) + timedelta(weeks=3)
    assert (tomato.sets_from, tomato.sets_by) == ("2026-07-17", "2026-07-22")
    assert tomato.lines[0].startswith("Expect a gap in tomato ripening 2")
    soonest = gaps_ahead(context)[0]
    assert str(gap_line(context)).startswith(f"Gaps after the heat: {soonest.crop.lower()} {soonest.when}")


def test_while_it_is_hot_no_end_is_promised(context) -> None:
    with_tomatoes(context, date(2026, 7, 12))
    tomato = next(view for view in gaps_ahead(context) if view.crop_id == "tomato")
    assert not tomato.over and tomato.gap_until is None and tomato.sets_from is None
    assert tomato.lines[0].startswith("Too hot for tomato flowers since 8 July")
    assert "nights under 22.2 °C" in tomato.lines[1]


def test_without_heat_or_weather_no_gap_is_told(context) -> None:
    assert gaps_ahead(context) == () and gap_line(context) is None
