"""The answer to "did it work" in a grower's words: the answer first, then the figures, then what else it may be."""

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

from scout.knowledge.control_file import Control, Measure
from scout.plain import day_text
from scout.services.counting import Around, count_words
from scout.services.weather_between import WeatherBetween

if TYPE_CHECKING:
    from scout.science.did_it_work import Judged

_ANSWER = {"yes": "Yes, it worked.", "no": "No, it did not work.", "cannot_tell": "Cannot tell yet."}
_FIRST = {
    "weather": "Cannot tell: it got better, but the weather may explain it.",
    "weather_against": "Cannot tell: the weather worked against it.",
    "too_early": "Too early to tell.",
    "not_done": "Not done yet.",
}
_REASONS = {
    "small": "The change is surely smaller than by half.",
    "worse": "It got worse.",
    "none_before": "None were there before, so none could get fewer.",
    "not_alike": "Treated and untreated plants were not alike before: they cannot be compared.",
    "no_before": "It was not counted before; judge by eye, or count plants that you left out.",
}


@dataclass(frozen=True)
class Found:
    """What is known of a job's outcome, before it is put into words."""

    verdict: Literal["yes", "no", "cannot_tell"]
    why: str
    measure: Measure | None
    control: Control | None
    around: Around
    judged: "Judged | None"
    weather: WeatherBetween | None
    tells: date | None


def answer_lines(found: Found, today: date) -> tuple[str, ...]:
    """Return the answer, the figures and the reasons as sentences."""
    lines = [_FIRST.get(found.why, _ANSWER[found.verdict])]
    if found.why in _REASONS:
        lines.append(_REASONS[found.why])
    lines += _counts(found)
    if found.judged is not None:
        lines += _figures(found.judged, found.measure)
    if found.why in ("no_after", "no_before") and found.measure is not None:
        lines.append(f"To count: {to_count(found.measure)}.")
    if found.why == "not_counted" and found.control is not None:
        lines += [f"Look: {found.control.count}", f"It worked when: {found.control.worked}"]
    return (*lines, *_besides(found, today))


def to_count(measure: Measure) -> str:
    """Return what is counted, and on how many."""
    if measure.way == "picks":
        return "nothing more; the picks count themselves, sound and odd"
    return f"{measure.what} on {measure.looked} {measure.unit}"


def _counts(found: Found) -> list[str]:
    around, measure = found.around, found.measure
    if measure is None:
        return []
    said = (
        ("Before", around.before),
        ("After", around.after),
        ("Untreated before", around.there_before),
        ("Untreated after", around.there_after),
    )
    return [f"{name}: {count_words(measure, one.found_n, one.looked_n)}." for name, one in said if one]


def _figures(judged: "Judged", measure: Measure | None) -> list[str]:
    lines = []
    if judged.p is not None:
        lines.append(f"Chance alone does as much {_times(judged.p)}.")
    if judged.efficacy_pct is not None:
        by = "Henderson-Tilton" if judged.efficacy_by == "henderson_tilton" else "Abbott"
        than = "fewer" if judged.efficacy_pct >= 0 else "more"
        lines.append(f"{abs(judged.efficacy_pct):.0f} % {than} than untreated ({by}).")
    if judged.reason == "chance" and judged.wanted_n is not None and measure is not None:
        lines.append(f"To see a change by half, look at about {judged.wanted_n} {measure.unit} each time.")
    return lines


def _times(p: float) -> str:
    if p < 0.001:
        return "less than once in 1000"
    return f"about {100 * p:.1f} times in 100" if p < 0.1 else f"about {100 * p:.0f} times in 100"


def _besides(found: Found, today: date) -> list[str]:
    lines = []
    weather, tells = found.weather, found.tells
    if tells is not None and (found.why == "too_early" or (found.judged is None and today < tells)):
        lines.append(f"What was infected before shows until {day_text(tells)}; a count before then tells nothing.")
    if weather is None:
        return lines
    if found.around.there_after is not None:
        lines.append("Untreated plants had the same weather: it is not the weather.")
    elif found.why in ("weather", "weather_against"):
        lines.append(f"The days after were {weather.helps if found.why == 'weather' else weather.hinders}.")
        lines.append("Next time leave some plants untreated: they would tell.")
    elif not weather.known and found.verdict != "cannot_tell":
        lines.append("The weather was not recorded; it may have had a part in it.")
    return lines
