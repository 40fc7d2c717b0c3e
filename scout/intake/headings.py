"""What the headings of a weather file mean, and the unit they name."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Meaning = Literal[
    "on", "at", "clock", "tmax", "tmin", "rain", "wet_h", "wet_morning", "rh_mean", "temp", "rh", "wind", "wet"
]  # fmt: skip

_UNITS = {
    "°c": "c", "ºc": "c", "c": "c", "degc": "c", "deg c": "c", "celsius": "c", "centigrade": "c",
    "°f": "f", "ºf": "f", "f": "f", "degf": "f", "deg f": "f", "fahrenheit": "f",
    "mm": "mm", "millimetres": "mm", "millimeters": "mm", "l/m²": "mm", "l/m2": "mm", "cm": "cm",
    "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in",
    "%": "pct", "pct": "pct", "percent": "pct", "per cent": "pct",
    "h": "h", "hr": "h", "hrs": "h", "hours": "h", "min": "min", "minutes": "min",
    "m/s": "ms", "ms": "ms", "km/h": "kmh", "kmh": "kmh", "kph": "kmh", "mph": "mph", "kn": "kn", "knots": "kn",
}  # fmt: skip
_IN_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")
_ENDINGS = re.compile(
    r"[ _,/-]*(?:[ _]|(?<=[^A-Za-z]))"
    r"(°c|ºc|°f|ºf|deg ?c|deg ?f|celsius|fahrenheit|mm|inch(?:es)?|in|m/s|ms|km/h|kmh|mph|pct|%|c|f|h)$"
)

_HEIGHT = re.compile(r" \d{1,3} ?m\b")  # "wind speed 10m": the height above ground
_ZONE = re.compile(r"\b(utc|gmt|z)(?: ?([+-]) ?(\d{1,2})(?::?(\d{2}))?)?\b")
_STANDARD = re.compile(r"\b(?:local )?standard time\b|\blst\b")

_WORDS: dict[Meaning, str] = {
    "on": "date|day|datum|fecha|data|tag|jour|local date|obs date|observation date|yyyymmdd",
    "at": "time|datetime|date time|timestamp|time stamp|date and time|local time|date hour|at|zeit|datum zeit"
    "|datum uhrzeit|zeitstempel|observed at|observation time|valid|valid time|time local|datetime local|fecha hora"
    "|date heure",
    "clock": "hour|clock|hh mm|hour of day|uhrzeit|time of day",
    "tmax": "tmax|t max|tx|max|maximum|high|hi|max temp|maxtemp|temp max|maximum temperature|max temperature"
    "|temperature max"
    "|high temp|temp high|high temperature|daily high|daily max|air temp max|max air temp|air temperature max"
    "|maximum air temperature|temperature high|temperature maximum|temp maximum|höchsttemperatur|maximaltemperatur"
    "|temp hi|hi temp|max t|air max|temperatura max|temperatura maxima|temp maxi|température max|temp maximale",
    "tmin": "tmin|t min|tn|min|minimum|low|lo|min temp|mintemp|temp min|minimum temperature|min temperature"
    "|temperature min"
    "|low temp|temp low|low temperature|daily low|daily min|air temp min|min air temp|air temperature min"
    "|minimum air temperature|temperature low|temperature minimum|temp minimum|tiefsttemperatur|minimaltemperatur"
    "|temp lo|lo temp|low t|min t|air min|temperatura min|temperatura minima|temp mini"
    "|température min|temp minimale",
    "rain": "rain|rainfall|precip|precipitation|prcp|rain sum|precipitation sum|rain amount|rain gauge|niederschlag"
    "|regen|pluie|lluvia|precipitations|precipitacion|rain fall|ppt|hourly rain|hourly precip|rain 1h|precip 1h",
    "wet_h": "wet hours|wet hrs|hours wet|leaf wetness|leaf wet hours|leaf wetness hours|leaf wetness duration|lw hours"
    "|wetness hours|wet h|lwd|wetness duration|leaf wetness time|hours of leaf wetness",
    "wet_morning": "wet morning|morning wet|dew|morning dew|wet at dawn|wet in the morning|leaves wet in the morning",
    "rh_mean": "rh mean|mean rh|rh avg|avg rh|average rh|mean humidity|humidity mean|average humidity|humidity avg"
    "|avg humidity|rh|humidity|relative humidity|rel humidity|mean relative humidity|relative humidity mean"
    "|average relative humidity|hum|luftfeuchte|luftfeuchtigkeit|rel hum|outdoor humidity|outside humidity|hum out"
    "|humedad|humidité|relative feuchte",
    "temp": "temp|temperature|t|air temp|air temperature|outdoor temperature|outside temperature|temp out|ta"
    "|outdoor temp|temp air|lufttemperatur|temperatur|mean temp|avg temp|mean temperature|temperatura|température"
    "|outside temp|temp avg|dry bulb|drybulb|dry bulb temperature",
    "wind": "wind|wind speed|windspeed|avg wind|mean wind|wind avg|wind mean|average wind speed|mean wind speed"
    "|windgeschwindigkeit|wind speed avg|avg wind speed|wind velocity|vent|viento",
    "wet": "wet|leaf wet|leaf wetness|wetness|leaves wet|lw|surface wet",
}  # fmt: skip

_TOTALS = "rain total|total rain|total precipitation|daily rain|precip total|precipitation total|rain today"
"""Rain since midnight in a file of hours, the rain of the day in a file of days."""

_DAILY: tuple[Meaning, ...] = ("on", "tmax", "tmin", "rain", "wet_h", "wet_morning", "rh_mean")
_HOURLY: tuple[Meaning, ...] = ("at", "on", "clock", "temp", "rain", "wind", "wet", "rh_mean")


@dataclass(frozen=True, slots=True)
class Heading:
    """One heading understood; `unit` and `zone` None when it names none."""

    meaning: Meaning
    unit: str | None
    zone: str | None = None
    """"+00:00" and the like for the times below it, or "standard" for the place's standard time."""


def _phrases(meanings: tuple[Meaning, ...]) -> dict[str, Meaning]:
    return {phrase: meaning for meaning in meanings for phrase in _WORDS[meaning].split("|")}


_DAY_PHRASES: dict[str, Meaning] = {
    **dict.fromkeys(_WORDS["at"].split("|"), "on"),
    **_phrases(_DAILY),
    **dict.fromkeys(_TOTALS.split("|"), "rain"),
}
_HOUR_PHRASES = _phrases(_HOURLY) | dict.fromkeys(_WORDS["rh_mean"].split("|"), "rh")


def daily_heading(text: str) -> Heading | None:
    """Return what a heading of a file of days means, or None when it is not known."""
    return _understood(text, _DAY_PHRASES)


def hourly_heading(text: str) -> Heading | None:
    """Return what a heading of a file of hours means, or None when it is not known."""
    return _understood(text, _HOUR_PHRASES)


def unit_of(text: str) -> str | None:
    """Return the unit that a text such as "°C" names, or None."""
    return _UNITS.get(" ".join(text.strip().lower().split()))


def _understood(text: str, phrases: Mapping[str, Meaning]) -> Heading | None:
    lowered, zone = _without_zone(text.strip().lower())
    unit = None
    for bracketed in _IN_BRACKETS.findall(lowered):
        unit = unit or unit_of(bracketed)
    bare = _IN_BRACKETS.sub(" ", lowered)
    meaning = phrases.get(_normal(bare))
    if meaning is None and zone is not None and not _normal(bare):
        meaning = phrases.get("time")
    if meaning is None and (ending := _ENDINGS.search(bare)):
        meaning = phrases.get(_normal(bare[: ending.start()]))
        unit = unit or unit_of(ending[1])
    elif meaning is not None and unit is None and meaning == "wet_h" and re.search(r"\bh(ou)?rs?\b|_h$", bare):
        unit = "h"
    return Heading(meaning, unit, zone) if meaning else None


def _without_zone(text: str) -> tuple[str, str | None]:
    """Return a heading without the time zone it names, and that zone."""
    spaced = text.replace("_", " ")
    if _STANDARD.search(spaced):
        return _STANDARD.sub(" ", spaced), "standard"
    found = _ZONE.search(spaced)
    if found is None:
        return text, None
    zone = f"{found[2] or '+'}{int(found[3] or 0):02d}:{found[4] or '00'}"
    return spaced[: found.start()] + " " + spaced[found.end() :], zone


def _normal(text: str) -> str:
    words = " ".join(re.sub(r"[^\w°]|_", " ", text).split())
    return " ".join(_HEIGHT.sub(" ", words).split())
