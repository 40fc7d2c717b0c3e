"""The day by its hours: what waits for dawn or dark, the heat for the person, first aid."""

from scout.services.context import Context
from scout.services.heat import DRINKING, FIRST_AID, heat_today, hour_lines, used_to_heat
from scout.services.plan import hour_lists
from scout.services.views import HourLine
from scout.tui.page import Line, Page, View


class HoursPage(Page[None]):
    """Dawn list, after-dark list, heat by the hour."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context

    def view(self) -> View:
        """Show the lists, then the hours, then what to do when somebody falls ill."""
        heat, lists = heat_today(self._garden), hour_lists(self._garden)
        lines = [*_listed("At dawn", lists["dawn"]), *_listed("After dark, with a torch", lists["dark"])]
        lines += [Line("Heat by the hour", "bold"), Line(heat.line), *(Line(text) for text in heat.advice)]
        lines += [Line(text) for text in hour_lines(self._garden, heat)]
        lines += [Line(used_to_heat(self._garden)), Line(DRINKING), Line("First aid", "bold")]
        lines += [Line(text) for text in FIRST_AID]
        return View("Dawn, dark and heat", lines, actions=("back",))


def _listed(name: str, found: tuple[HourLine, ...]) -> list[Line]:
    if not found:
        return [Line(f"{name}: nothing asks for it.")]
    return [Line(name, "bold"), *(Line(f"{one.bed}, {one.crop}: {one.ask} ({one.why})") for one in found)]
