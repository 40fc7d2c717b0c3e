"""Do not eat until: what a label said, entered and seen."""

from datetime import date, datetime
from typing import Any

from scout.services import holds
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.holds import HoldLine
from scout.tui.page import GardenPage, Line, Page, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage

_DAYS = "Days from last use to harvest, by its label? (esc: not known)"
_HOURS = "Hours until you may go in, by its label? (esc: not known)"


class HoldsPage(GardenPage[None]):
    """Every hold that stands."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._holds: tuple[HoldLine, ...] = ()

    def view(self) -> View:
        """List them by bed; the last row enters one."""
        self._holds = holds.standing(self._garden)
        lines = [Line(holds.COPY_IT)] if self._holds else [Line("Nothing is on hold."), Line(holds.COPY_IT)]
        return View("Do not eat", lines, [*(hold.short for hold in self._holds), "Enter one"], ("undo", "back"))

    def picked(self, index: int) -> None:
        """Mend the intervals of one, or enter another."""
        if index < len(self._holds):
            self._mend(self._holds[index])
            return
        plants = list({one.planting_id: one for one in planted(self._garden)}.values())

        rows = [f"{one.bed} · {one.label}" for one in plants]
        questions = HoldQuestions(self, self._garden)
        page = ChoicePage("A product was used", "On which planting?", rows)
        self.ask(page, lambda number: questions.ask(plants[number]))

    def _mend(self, hold: HoldLine) -> None:
        questions = HoldQuestions(self, self._garden)

        def keep(days: int | None, hours: int | None) -> str:
            holds.give_label(self._garden, hold.id, days, hours)
            return hold.id

        questions.intervals(hold.place, keep, (hold.harvest_interval_d, hold.re_entry_h))


class HoldQuestions:
    """The few questions about a product that was used; nothing is kept before the last is answered."""

    def __init__(self, page: Page[Any], context: Context) -> None:
        self._page, self._garden = page, context

    def ask(self, plant: Planted) -> None:
        """Ask what, when, how many days, how many hours."""
        head = f"{plant.bed} · {plant.label}"

        def named(what: str) -> None:
            if what:
                self._ask_when(plant, head, what)

        hint = "In your own words; Enter keeps this."
        self._page.ask(TextPage(head, "What was used?", given="labelled product", hint=hint), named)

    def _ask_when(self, plant: Planted, head: str, what: str) -> None:
        asked = "When did you finish?"

        def just_now() -> None:
            self._label(plant, head, what, self._garden.here_and_now.replace(tzinfo=None, second=0, microsecond=0))

        def earlier() -> None:
            hint = "Such as 18:30, or 2026-07-03 18:30"
            self._page.ask(TextPage(head, asked, hint=hint, keep=self._when), typed)

        def typed(text: str) -> None:
            self._label(plant, head, what, self._when(text))

        acts = (just_now, earlier)
        self._page.ask(ChoicePage(head, asked, ["Just now", "Earlier"]), lambda number: acts[number]())

    def _when(self, text: str) -> datetime | date:
        when = holds.read_applied(text, self._garden.today)
        holds.refuse_wrong_time(self._garden, when)
        return when

    def _label(self, plant: Planted, head: str, what: str, when: Any) -> None:
        def keep(days: int | None, hours: int | None) -> str:
            return holds.record_hold(self._garden, plant.planting_id, what, when, days, hours)

        self.intervals(head, keep, (None, None))

    def intervals(self, head: str, keep: Any, given: tuple[int | None, int | None]) -> None:
        """Ask both intervals, then keep them and say what follows."""

        def days_given(days: int | None) -> None:
            page = NumberPage(head, _HOURS, most=holds.MOST_H, given=given[1])
            self._page.app.push_page(page, lambda hours: both(days, hours))

        def both(days: int | None, hours: int | None) -> None:
            hold_id = keep(days, hours)
            kept = next((hold for hold in holds.standing(self._garden) if hold.id == hold_id), None)
            self._page.say("\n".join(kept.lines) if kept else "This label's times are over already.")

        self._page.app.push_page(NumberPage(head, _DAYS, most=holds.MOST_D, given=given[0]), days_given)


def just_used(page: Page[Any], context: Context, planting_id: str) -> None:
    """Ask for the label of a product that was used on a planting."""
    plant = next((one for one in planted(context) if one.planting_id == planting_id), None)
    if plant is not None:
        HoldQuestions(page, context).ask(plant)
