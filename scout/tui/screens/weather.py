"""Weather: the heat caution, two weeks with what stands out, pests by warmth, water in the beds, and ways to add."""

from pathlib import Path

from scout.services import scald, weather, weather_files, weather_marks, weather_words
from scout.services.context import Context
from scout.services.heat import heat_today
from scout.services.site import site_of
from scout.services.weather_files import TakenIn, WeatherFile
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import ChoicePage, TextPage
from scout.tui.screens.forecast import ask_forecast
from scout.tui.screens.work import WorkPage

WIDE = 60
"""Cells from which words stand in place of letters."""


class WeatherPage(GardenPage[None]):
    """Two weeks back, and the ways to add to them."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._wide = False

    def view(self) -> View:
        """Show the days, newest first, and what missing ones hide."""
        units, self._wide = site_of(self._garden).units, self.app.size.width >= WIDE
        heat, found = heat_today(self._garden), weather_marks.fortnight(self._garden)
        lines = [Line(heat.line, "bold"), *(Line(text) for text in heat.advice)]
        scald_line = scald.scald_line(self._garden)
        lines += [Line(scald_line)] if scald_line else []
        lines.append(Line(weather_words.day_head(units, wide=self._wide), "underline"))
        days = (weather_words.day_row(day, units, self._garden.today, wide=self._wide) for day in found.days)
        lines += [Line(text) for text in (*days, *found.lowered)]
        lines += [Line(text, "dim") for text in weather_words.legend(found, units, wide=self._wide)]
        rows = [
            "Type a day: max min rain wet",
            "Type the forecast highs",
            "Take in a CSV file of days or hours",
            "Pests by warmth",
            "Water in the beds",
        ]
        return View("Weather", lines, rows, ("undo", "back"))

    def resized(self) -> None:
        """Change between letters and words with the width."""
        if (self.app.size.width >= WIDE) != self._wide:
            self.show()

    def picked(self, index: int) -> None:
        """Open one of the pages, or of the ways to add weather."""
        (self._type, self._forecast, self._file, self._warmth, self._water)[index]()

    def _warmth(self) -> None:
        from scout.tui.screens.weather_pages import WarmthPage

        self.app.push_page(WarmthPage(self._garden))

    def _water(self) -> None:
        from scout.tui.screens.weather_pages import WaterPage

        self.app.push_page(WaterPage(self._garden))

    def _type(self) -> None:
        hint = "Such as: 34 22 3,5 wet   or   yesterday 94F 72F 0.3in dry"

        def keep(text: str) -> None:
            self.say(weather.type_line(self._garden, text))

        page = TextPage("Weather", "High, low, rain, wet or dry leaves at dawn", hint=hint, keep=keep)
        self.app.push_page(page)

    def _forecast(self) -> None:
        ask_forecast(self, self._garden, self.show)

    def _file(self) -> None:
        def typed(text: str) -> None:
            if text:
                self._read(Path(text).expanduser())

        page = TextPage(
            "Weather file",
            "Where does the CSV file lie?",
            keep=lambda text: weather_files.holds_hours(Path(text).expanduser()),
        )
        self.ask(page, typed)

    def _read(self, file: Path) -> None:
        page = WorkPage("Reading", lambda told: weather_files.look_into(self._garden, file, told=told))
        self.ask(page, self._confirm)

    def _confirm(self, found: WeatherFile) -> None:
        what = "hours" if found.hourly else "days"
        text = "\n".join((*found.lines[:14], f"{found.rows_n} {what} read, {found.refused_n} refused."))

        def chosen(number: int) -> None:
            if number == 0 and found.rows_n:
                work = WorkPage("Writing", lambda told: weather_files.take_in(self._garden, found, told))
                self.ask(work, self._taken_in)

        rows = ["Take in the good rows", "Leave it"] if found.rows_n else ["No good row: leave it"]
        self.ask(ChoicePage("Understood so far", text, rows), chosen)

    def _taken_in(self, done: TakenIn) -> None:
        self.say(" ".join((done.line, *done.corrections[:3])))
