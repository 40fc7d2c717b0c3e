"""Beside the weather: how far pests have come by warmth, and how much water the beds still hold."""

from scout.services import bed_water, site, warmth, warmth_words, weather_words
from scout.services.context import Context
from scout.services.site import latitude_of
from scout.tui.page import GardenPage, Line, Page, View
from scout.tui.screens.ask import TextPage


class WarmthPage(Page[None]):
    """Every pest of the crops here that has a published sum of warmth, and the cold days of crops that need them."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context

    def view(self) -> View:
        """Show count by count: a head in bold, then what is known."""
        counts = warmth.pest_counts(self._garden)
        blocks = [warmth_words.pest_lines(self._garden, one) for one in counts]
        blocks += [warmth_words.chill_lines(self._garden, one) for one in warmth.chill_counts(self._garden)]
        lines = [Line(text) for text in warmth_words.head_lines(counts)]
        for head, *told in blocks:
            lines += [Line(""), Line(head, "bold"), *(Line(f"  {text}") for text in told)]
        return View("Pests by warmth", lines, actions=("back",))


class WaterPage(GardenPage[None]):
    """The soil of every bed and tub, in walking order."""

    def view(self) -> View:
        """Show bed by bed; without a latitude the way to give one."""
        from scout.tui.screens.weather import WIDE

        wide = self.app.size.width >= WIDE
        lines = [Line(text) for text in weather_words.water_lines(bed_water.bed_waters(self._garden), wide=wide)]
        ask = [] if latitude_of(self._garden) is not None else ["Type how far north the garden lies"]
        return View("Water in the beds", lines, ask, ("undo", "back"))

    def picked(self, index: int) -> None:
        """Ask for the latitude."""

        def keep(text: str) -> None:
            self.say(site.type_latitude(self._garden, text))

        question, hint = "Latitude in degrees, south with a minus", "Such as 40 or -34; whole degrees are enough"
        self.app.push_page(TextPage("Latitude", question, hint=hint, keep=keep))
