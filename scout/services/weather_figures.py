"""Figures of the weather and where they come from, in the grower's words and units."""

from scout.services.weather import DayLineView, rain_text, temperature_text

FIGURES = {
    "tmax_c": "high", "tmin_c": "low", "rain_mm": "rain", "wet_h": "wet leaves", "wet_morning": "morning leaves",
    "rh_mean_pct": "mean humidity", "temp_c": "temperature", "rh_pct": "humidity", "wind_ms": "wind", "wet": "leaves",
}  # fmt: skip


def figure_text(name: str, value: float | bool | None, units: str) -> str:
    """Return one figure in the grower's unit; "missing" where there is none."""
    from scout.science.units import kmh_from_ms, mph_from_kmh

    if value is None:
        return "missing"
    if name in ("wet", "wet_morning"):
        return "wet" if value else "dry"
    if name in ("tmax_c", "tmin_c", "temp_c"):
        return temperature_text(float(value), units)
    if name == "rain_mm":
        return rain_text(float(value), units)
    if name == "wind_ms":
        speed_kmh = kmh_from_ms(float(value))
        return f"{mph_from_kmh(speed_kmh):.0f} mph" if units == "us" else f"{speed_kmh:.0f} km/h"
    return f"{value:g} h" if name == "wet_h" else f"{value:g} %"


def mixed_sources(day: DayLineView) -> str | None:
    """Return where the figures of a day come from, None where the row of the day says it: all of one source here."""
    by_source: dict[str, list[str]] = {}
    said = {name: source for name, source in day.sources.items() if not (name == "wet_h" and day.wet_worked_out)}
    for name, source in said.items():
        by_source.setdefault(source, []).append(FIGURES[name])
    if len(by_source) < 2 and not day.elsewhere:
        return None
    return f"{day.on.isoformat()}: " + "; ".join(f"{', '.join(names)} {source}" for source, names in by_source.items())
