"""What the headings of a weather file mean, and the unit they name."""

import re
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

_HEIGHT = re.compile(r" \d{1,3} ?m$")  # "wind speed 10m": the height above ground

_WORDS: dict[Meaning, str] = {
    "on": "date|day|datum|fecha|data|tag|jour|local date|obs date|observation date",
    "at": "time|datetime|date time|timestamp|date and time|local time|date hour|at|zeit|datum zeit|observed at"
    "|valid|time local",
    "clock": "hour|clock|hh mm|hour of day|uhrzeit|time of day",
    "tmax": "tmax|t max|tx|max|maximum|high|hi|max temp|maxtemp|temp max|maximum temperature|max temperature"
    "|temperature max"
    "|high temp|temp high|high temperature|daily high|daily max|air temp max|max air temp|air temperature max"
    "|maximum air temperature|temperature high|temperature maximum|temp maximum|höchsttemperatur|maximaltemperatur",
    "tmin": "tmin|t min|tn|min|minimum|low|lo|min temp|mintemp|temp min|minimum temperature|min temperature"
    "|temperature min"
    "|low temp|temp low|low temperature|daily low|daily min|air temp min|min air temp|air temperature min"
    "|minimum air temperature|temperature low|temperature minimum|temp minimum|tiefsttemperatur|minimaltemperatur",
    "rain": "rain|rainfall|precip|precipitation|prcp|rain sum|rain total|total rain|total precipitation|daily rain"
    "|precipitation sum|precip total|precipitation total|rain amount|rain gauge|niederschlag|regen|pluie|lluvia"
    "|rain fall|ppt|hourly rain|hourly precip",
    "wet_h": "wet hours|wet hrs|hours wet|leaf wetness|leaf wet hours|leaf wetness hours|leaf wetness duration|lw hours"
    "|wetness hours|wet h|lwd|wetness duration|leaf wetness time|hours of leaf wetness",
    "wet_morning": "wet morning|morning wet|dew|morning dew|wet at dawn|wet in the morning|leaves wet in the morning",
    "rh_mean": "rh mean|mean rh|rh avg|avg rh|average rh|mean humidity|humidity mean|average humidity|humidity avg"
    "|avg humidity|rh|humidity|relative humidity|rel humidity|mean relative humidity|relative humidity mean"
    "|average relative humidity|hum|luftfeuchte|luftfeuchtigkeit",
    "temp": "temp|temperature|t|air temp|air temperature|outdoor temperature|outside temperature|temp out|ta"
    "|outdoor temp|temp air|lufttemperatur|temperatur|mean temp|avg temp|mean temperature",
    "wind": "wind|wind speed|windspeed|avg wind|mean wind|wind avg|wind mean|average wind speed|mean wind speed"
    "|windgeschwindigkeit|wind speed avg",
    "wet": "wet|leaf wet|leaf wetness|wetness|leaves wet|lw|surface wet",
}  # fmt: skip

_DAILY: tuple[Meaning, ...] = ("on", "tmax", "tmin", "rain", "wet_h", "wet_morning", "rh_mean")
_HOURLY: tuple[Meaning, ...] = ("at", "on", "clock", "temp", "rain", "wind", "wet", "rh_mean")


@dataclass(frozen=True, slots=True)
class Heading:
    """One heading understood; `unit` None when it names none."""

    meaning: Meaning
    unit: str | None


def _phrases(meanings: tuple[Meaning, ...]) -> dict[str, Meaning]:
    return {phrase: meaning for meaning in meanings for phrase in _WORDS[meaning].split("|")}


_DAY_PHRASES = _phrases(_DAILY)
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


def _understood(text: str, phrases: dict[str, Meaning]) -> Heading | None:
    lowered = text.strip().lower()
    unit = None
    for bracketed in _IN_BRACKETS.findall(lowered):
        unit = unit or unit_of(bracketed)
    bare = _IN_BRACKETS.sub(" ", lowered)
    meaning = phrases.get(_normal(bare))
    if meaning is None and (ending := _ENDINGS.search(bare)):
        meaning = phrases.get(_normal(bare[: ending.start()]))
        unit = unit or unit_of(ending[1])
    elif meaning is not None and unit is None and meaning == "wet_h" and re.search(r"\bh(ou)?rs?\b|_h$", bare):
        unit = "h"
    return Heading(meaning, unit) if meaning else None


def _normal(text: str) -> str:
    words = " ".join(re.sub(r"[^\w°]|_", " ", text).split())
    return _HEIGHT.sub("", words)
