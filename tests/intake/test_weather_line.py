from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.weather_line import DayLine, read_line

TODAY = date(2026, 7, 20)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("34 22 3,5 wet", DayLine(None, 34.0, 22.0, 3.5, True)),
        ("34 22 3.5 dry", DayLine(None, 34.0, 22.0, 3.5, False)),
        ("34 22", DayLine(None, 34.0, 22.0, None, None)),
        ("34 22 wet", DayLine(None, 34.0, 22.0, None, True)),
        ("34 22 0", DayLine(None, 34.0, 22.0, 0.0, None)),
        ("-1,5 \u22126 -", DayLine(None, -1.5, -6.0, None, None)),
        ("34 - 3", DayLine(None, 34.0, None, 3.0, None)),
        ("yesterday 34 22", DayLine(date(2026, 7, 19), 34.0, 22.0, None, None)),
        ("Today 34 22 WET", DayLine(TODAY, 34.0, 22.0, None, True)),
        ("2026-07-18 34 22", DayLine(date(2026, 7, 18), 34.0, 22.0, None, None)),
        ("18.7.2026 34 22", DayLine(date(2026, 7, 18), 34.0, 22.0, None, None)),
        ("34°C 22°C 3 mm", DayLine(None, 34.0, 22.0, 3.0, None)),
    ],
)
def test_a_metric_line_is_read(text: str, expected: DayLine) -> None:
    assert read_line(text, "metric", today=TODAY) == expected


@pytest.mark.parametrize(
    "text", ["95F 50F 1in wet", '95f 50f 1" wet', "95 F 50 F 1 inch wet", "95°F 50 25.4mm wet", "35C 10C 25,4mm wet"]
)
@pytest.mark.parametrize("units", ["metric", "us"])
def test_units_that_are_written_win_over_the_settings(text: str, units: str) -> None:
    """95 °F = 35 °C, 50 °F = 10 °C, 1 inch = 25.4 mm (definitions)."""
    assert read_line(text, units) == DayLine(None, 35.0, 10.0, 25.4, True)  # type: ignore[arg-type]


def test_us_settings_hold_for_bare_figures() -> None:
    assert read_line("95 50 1", "us") == DayLine(None, 35.0, 10.0, 25.4, None)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("94 72 0.3", "“94” cannot be °C in a garden; did you mean °F? Then write 94F"),
        ("22 34", "“22” is lower than “34”"),
        ("34", "needs the highest and the lowest"),
        ("", "needs the highest and the lowest"),
        ("wet", "needs the highest and the lowest"),
        ("34 22 3 4", "“4” is one number too many"),
        ("34 22 moist", "“moist” is not understood"),
        ("34 22 wet dry", "“dry” comes after"),
        ("34 22 1,234", "could be 1.234 or 1234"),
        ("34 22 -1", "“-1” cannot be the rain"),
        ("34 22 5000", "cannot be the rain"),
        ("34 22 3F", "stands where the rain belongs"),
        ("3mm 34 22", "stands where a temperature belongs"),
        ("- -", "holds no figure"),
        ("2026-07-21 34 22", "still to come"),
        ("2026-02-30 34 22", "no day of the calendar"),
        ("07/08/2026 34 22", "day/month or month/day"),
        ("34 22 nan", "“nan” is not understood"),
        ("34 2_2", "“2_2” is not understood"),
        ("[/z] 34 22", "“[/z]” is not understood"),
    ],
)
def test_a_line_that_cannot_be_names_the_word_at_fault(text: str, said: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_line(text, "metric", today=TODAY)
    assert said in str(caught.value) and str(caught.value).endswith((".", "F"))


def test_yesterday_needs_a_today() -> None:
    with pytest.raises(BadInput, match="cannot be used here"):
        read_line("yesterday 34 22", "metric")


def test_us_rain_far_too_high_hints_at_millimetres() -> None:
    with pytest.raises(BadInput, match="did you mean mm"):
        read_line("95 50 90", "us")


@given(st.integers(-590, 600), st.integers(0, 200), st.integers(0, 5000), st.booleans(), st.sampled_from(".,"))
def test_what_is_typed_comes_back(lowest: int, span: int, rain: int, wet: bool, sign: str) -> None:
    highest = min(600, lowest + span)
    text = f"{highest / 10} {lowest / 10} {rain / 10} {'wet' if wet else 'dry'}".replace(".", sign)
    assert read_line(text, "metric") == DayLine(None, highest / 10, lowest / 10, rain / 10, wet)


@given(st.text(max_size=30))
def test_any_text_is_a_day_or_a_sentence(text: str) -> None:
    try:
        read_line(text, "metric", today=TODAY)
    except BadInput as problem:
        assert "\n" not in str(problem)
