"""Is it keeping up? The verdict on top, the ladder of leaves, both lines; then measuring by numbers."""

from datetime import timedelta
from typing import TYPE_CHECKING

from scout.services import marked
from scout.services.context import Context
from scout.services.garden import planted_as
from scout.services.marked import MarkedTable, MarkedView, MeasuredRow
from scout.tui.chart import chart
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage
from scout.tui.screens.measuring import Measuring

if TYPE_CHECKING:
    from scout.services.keeping_followed import Fruit

_LEAVE_ROW = "Measure one no more"
_FRUIT_ROW = "Say where the lowest unripe fruit hangs"
_SHARES = ("Strip it like the others", "Leave it unstripped, to compare")
_HABITS = (("indeterminate", "Grows on and on"), ("determinate", "Bushy, stops by itself"), ("topped", "Topped"))


class MarkedPage(GardenPage[None]):
    """The marked plants of one planting."""

    def __init__(self, context: Context, planting_id: str, stop_id: str | None) -> None:
        super().__init__(context)
        self._planting_id, self._stop_id = planting_id, stop_id
        self._plants: tuple[MarkedView, ...] = ()
        self._fruit: Fruit | None = None
        """The lowest unripe fruit, as given on this page; it changes daily and is not kept."""
        self._told: tuple[tuple[MeasuredRow, ...], list[Line], list[Line]] | None = None
        """Rows the verdict was worked out for, the lines above the ladder and those below."""

    def view(self) -> View:
        """Show the verdict, the ladder, the chart and the plants to measure."""
        self._plants = marked.marked_plants(self._garden, self._planting_id)
        table = marked.marked_table(self._garden, self._planting_id)
        rows = [_row(plant) for plant in self._plants]
        rows += ["Mark another plant" if self._plants else "Mark a plant"]
        rows += [_FRUIT_ROW] if self._stops_growing() else []
        rows += [_LEAVE_ROW] if self._plants else []
        planted = planted_as(self._garden, self._planting_id)
        head = f"Keeping up? {planted.bed} · {planted.label}"
        return View(head, self._lines(table), rows, ("knife", "figures", "undo", "back"))

    def _stops_growing(self) -> bool:
        return any(plant.habit != "indeterminate" for plant in self._plants)

    def _lines(self, table: MarkedTable) -> list[Line]:
        from scout.services.keeping_table import row_lines

        if not table.rows:
            return [*([] if len(self._plants) > 1 else [Line(marked.HOW_MANY)]), Line(marked.COUNTED_FROM)]
        above, below = [Line("Working out the verdict ...", "bold")], [Line(text) for text in table.lines]
        if self._told is not None and self._told[0] == table.rows:
            _, above, below = self._told
        return [*above, *self._drawn(table), *below, *(Line(text) for text in row_lines(table.rows[-8:]))]

    def _drawn(self, table: MarkedTable) -> list[Line]:
        from scout.services.keeping_ladder import LEGEND, ladder

        width = min(max(20, self.app.size.width - 4), 72)
        rungs = ladder([row for row in table.rows if row.label not in self._unstripped()], width)
        lines = chart(table.top_leaf, table.front, width, 5)
        named = ["solid: top leaf; dotted: highest spotted leaf"] if lines else []
        return [Line(text) for text in (*rungs, *([LEGEND] if rungs else []), *lines, *named)]

    def _unstripped(self) -> set[str]:
        return {plant.label for plant in marked.marks_ever(self._garden, self._planting_id) if plant.control}

    def show(self) -> None:
        """Draw at once what is measured, and the verdict when it is worked out."""
        super().show()
        rows = marked.marked_table(self._garden, self._planting_id).rows
        if rows and (self._told is None or self._told[0] != rows):
            self.call_after_refresh(self.attempt, self._work_out)

    def _work_out(self) -> None:
        from scout.services.keeping_knife import knife_short, knife_today
        from scout.services.keeping_source import followed_in_garden
        from scout.services.keeping_up import judge
        from scout.services.keeping_words import CHOICE, lines_below, verdict_sentence

        if not self.stands:
            return  # left before it was worked out
        plant = planted_as(self._garden, self._planting_id)
        told = judge(followed_in_garden(self._garden, plant, self._fruit))
        settle, *more = lines_below(told) or [""]
        strip, why = knife_short(knife_today(self._garden, plant))
        above = [Line(verdict_sentence(told), "bold"), *([Line(settle)] if settle else [])]
        above += [Line(strip, "bold"), Line(f"{why} (k)")]
        below = [Line(text) for text in (*more, CHOICE)]
        self._told = marked.marked_table(self._garden, self._planting_id).rows, above, below
        super().show()

    def picked(self, index: int) -> None:
        """Measure a plant, or mark a new one."""
        if index < len(self._plants):
            self._measure(self._plants[index])
        elif index == len(self._plants):
            self._mark()
        elif self.shown.picks[index] == _LEAVE_ROW:
            self._leave()
        else:
            self._ask_fruit()

    def _leave(self) -> None:
        rows = [plant.label for plant in self._plants]
        page = ChoicePage("Measure no more", "Which plant died, was pulled or lost its tape? Its counts stay.", rows)
        self.ask(page, lambda number: marked.leave_plant(self._garden, self._plants[number].id))

    def _ask_fruit(self) -> None:
        from scout.services.keeping_followed import Fruit

        def at_leaf(leaf: int) -> None:
            page = NumberPage("Lowest unripe fruit", "In how many days will it be ripe?", most=120)
            self.ask(page, lambda days: ripe(leaf, days))

        def ripe(leaf: int, days: int) -> None:
            self._fruit, self._told = Fruit(leaf, self._garden.today + timedelta(days=days)), None

        self.ask(NumberPage("Lowest unripe fruit", "At which leaf does it hang?", most=200, least=1), at_leaf)

    def _measure(self, plant: MarkedView) -> None:
        Measuring(self, self._garden, plant, self._planting_id, self._stop_id).begin()

    def _mark(self) -> None:
        def named(name: str) -> None:
            if name:
                rows = [words for _, words in _HABITS]
                self.ask(ChoicePage(name, "How does it grow?", rows), lambda number: habit_given(name, number))

        def habit_given(name: str, number: int) -> None:
            habit = _HABITS[number][0]
            if marked.may_stay_unstripped(self._garden, self._planting_id):
                page = ChoicePage(name, marked.UNSTRIPPED_ASKED, _SHARES)
                self.ask(page, lambda share: mark(name, habit, control=share == 1))
            else:
                mark(name, habit)

        def mark(name: str, habit: str, *, control: bool = False) -> None:
            marked.mark_plant(self._garden, self._planting_id, name, habit, control=control)

        hint = "Such as: 2nd from the path, red tape"
        self.ask(TextPage("Mark a plant", "A name for it", hint=hint, most=60), named)

    def do_knife(self) -> None:
        """Show the advice before the knife."""
        from scout.tui.screens.knife import KnifePage

        self._told = None  # what is answered there moves the line here
        self.app.push_page(KnifePage(self._garden, self._planting_id))

    def do_figures(self) -> None:
        """Show the epidemic figures."""
        from scout.tui.screens.figures import FiguresPage

        self.app.push_page(FiguresPage(self._garden, self._planting_id))


def _row(plant: MarkedView) -> str:
    unstripped = " (unstripped)" if plant.control else ""
    return f"Measure {plant.label}{unstripped} · {plant.last_on or 'not yet'}"
