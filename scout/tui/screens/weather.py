"""Weather: the heat caution, one typed line, the last two weeks; missing days are shown as missing."""

from datetime import timedelta
from pathlib import Path

from scout.services import weather
from scout.services.context import Context
from scout.services.garden import site_of
from scout.services.weather import DayLineView
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage


class WeatherPage(Page[None]):
    """Two weeks back, and the ways to add to them."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context

    def view(self) -> View:
        """Show the days, newest first."""
        units = site_of(self._garden).units
        heat = weather.heat_today(self._garden)
        lines = [Line(heat.line, "bold"), *(Line(text) for text in heat.advice)]
        lines.append(Line("day     max    min    rain   leaves", "underline"))
        lines += [Line(_day(day, units)) for day in weather.last_days(self._garden)]
        rows = ["Type a day: max min rain wet", "Type tomorrow's forecast high", "Take in a CSV file of days"]
        return View("Weather", lines, rows, ("undo", "back"))

    def picked(self, index: int) -> None:
        """Open one of the ways to add weather."""
        (self._type, self._forecast, self._file)[index]()

    def _type(self) -> None:
        hint = "Such as: 34 22 3,5 wet   or   yesterday 94F 72F 0.3in dry"

        def keep(text: str) -> None:
            self.say(weather.type_line(self._garden, text))

        page = TextPage("Weather", "High, low, rain, wet or dry leaves at dawn", hint=hint, keep=keep)
        self.app.push_screen(page)

    def _forecast(self) -> None:
        from scout.science.units import c_from_f

        us = site_of(self._garden).units == "us"
        unit = "°F" if us else "°C"

        def counted(high: int | None) -> None:
            if high is not None:
                on = self._garden.today + timedelta(days=1)
                weather.type_forecast(self._garden, on, c_from_f(float(high)) if us else float(high))

        page = NumberPage("Forecast", f"Tomorrow's high in {unit}?", most=130 if us else 55)
        self.app.push_screen(page, lambda high: self.attempt(lambda: counted(high)))

    def _file(self) -> None:
        def typed(text: str | None) -> None:
            if text:
                self._confirm(Path(text).expanduser())

        page = TextPage(
            "Weather file",
            "Where does the CSV file lie?",
            keep=lambda text: weather.look_into(self._garden, Path(text).expanduser()),
        )
        self.app.push_screen(page, lambda text: self.attempt(lambda: typed(text)))

    def _confirm(self, file: Path) -> None:
        found = weather.look_into(self._garden, file)
        text = "\n".join((*found.lines[:12], f"{found.rows_n} days read, {found.refused_n} refused."))

        def chosen(number: int | None) -> None:
            if number == 0:
                self.say(weather.import_file(self._garden, file))

        page = ChoicePage("Understood so far", text, ["Take in the good rows", "Leave it"])
        self.app.push_screen(page, lambda n: self.attempt(lambda: chosen(n)))

    def do_undo(self) -> None:
        """Take back the last thing given."""
        from scout.services import walk

        self.say(walk.undo(self._garden))
        self.show()


def _day(day: DayLineView, units: str) -> str:
    name = f"{day.on:%a} {day.on.day:>2}"
    if day.basis is None:
        return f"{name}  missing"
    high = weather.temperature_text(day.tmax_c, units)
    low = weather.temperature_text(day.tmin_c, units)
    rain = weather.rain_text(day.rain_mm, units)
    wet = f"{day.wet_h:g} h wet" if day.wet_h is not None else {True: "wet", False: "dry", None: ""}[day.wet_morning]
    return f"{name}  {high:>6} {low:>6} {rain:>7}  {wet}"
