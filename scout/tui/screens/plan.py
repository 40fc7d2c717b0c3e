"""The walk before it begins: clean beds first, then the sick ones, each with time and why; what waits until when."""

from scout.services import walk
from scout.services.context import Context
from scout.services.plan import WASH, walk_plan
from scout.services.views import PlannedStop, WalkPlan
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, NumberPage

_ROOM = 3
"""Lines above the list: the stops are what the grower came for, the rest stands behind `h`."""


class PlanPage(Page[None]):
    """Today's stops in walking order."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context
        self._minutes: int | None = None
        self._dry_from: int | None = None
        self._plan: WalkPlan | None = None
        self._rows: list[PlannedStop | None] = []

    def view(self) -> View:
        """Show the order, the wash between, and what waits below."""
        plan = walk_plan(self._garden, self._minutes, dry_from=self._dry_from)
        if not plan.stops and not plan.deferred:
            plan = walk_plan(self._garden, self._minutes, everything=True, dry_from=self._dry_from)
        self._plan = plan
        lines = [Line(text) for text in plan.lines[1:] if text != WASH]
        if plan.deferred:
            lines.append(Line(f"{len(plan.deferred)} wait; each says why and until when.", "bold"))
        self._rows = _with_wash(plan)
        return View(
            plan.head, lines[-_ROOM:], [_text(plan, row) for row in self._rows], ("go", "minutes", "hours", "back")
        )

    def do_go(self) -> None:
        """Begin the walk."""
        from scout.tui.screens.stop import StopPage

        if self._plan is None or not self._plan.stops:
            self.say(_why_none(self._plan))
            return
        walk.start(self._garden, (*self._plan.stops, *self._plan.deferred))
        self.app.replace_page(StopPage(self._garden))

    def _begin_at(self, row: PlannedStop) -> None:
        """Begin the walk at the stop that was chosen; those before it wait in their order."""
        from scout.services.walk_elsewhere import look_now
        from scout.tui.screens.stop import StopPage

        assert self._plan is not None
        with self._garden.write():
            walk.start(self._garden, (*self._plan.stops, *self._plan.deferred))
            look_now(self._garden, row.planting_id, row.bed_id)
        self.app.replace_page(StopPage(self._garden))

    def picked(self, index: int) -> None:
        """Begin the walk at that stop; a row that waits says why in full, the wash asks whether leaves are dry."""
        row = self._rows[index]
        if row is None:
            self._felt()
        elif row.deferred_why is not None:
            self.say(f"{row.bed}, {row.crop}: {row.deferred_why}.")
        else:
            self._begin_at(row)

    def _felt(self) -> None:
        """Ask what a leaf felt like: it goes before any estimate of when leaves are dry."""

        def chosen(number: int) -> None:
            self._dry_from = None if number else 0

        rows = ["Dry: the sick beds may follow at once", "Wet, or not felt: as the plan says"]
        self.ask(ChoicePage("Leaves", "Feel a leaf of a sick bed. How is it?", rows), chosen)

    def do_minutes(self) -> None:
        """Say how many minutes there are."""

        def counted(minutes: int | None) -> None:
            self._minutes = minutes

        page = NumberPage("Minutes", "How many minutes are there?", least=1, most=600, given=self._minutes)
        self.app.push_page(page, counted)

    def do_hours(self) -> None:
        """Show the heat by the hour, the dawn and the after-dark list, and first aid."""
        from scout.tui.screens.hours import HoursPage

        self.app.push_page(HoursPage(self._garden))


def _with_wash(plan: WalkPlan) -> list[PlannedStop | None]:
    """Return the rows: stops with the wash between the passes as None, then what waits."""
    rows: list[PlannedStop | None] = list(plan.stops)
    if plan.wash_before is not None:
        rows.insert(plan.wash_before, None)
    return [*rows, *plan.deferred]


def _text(plan: WalkPlan, stop: PlannedStop | None) -> str:
    if stop is None:
        wait = f" Wait {plan.wait_min} min for dry leaves." if plan.wait_min else ""
        return f"-- Wash hands, wipe the blade, empty the bag.{wait}"
    if stop.deferred_why is not None:
        return f"waits: {stop.bed} · {stop.crop} — {stop.deferred_why}"
    mark = {"suspect": "!! ", "spotted": "! ", "insects": "~ "}.get(stop.group, "")
    return f"{stop.at} {mark}{stop.bed} · {stop.crop} — {stop.why}"


def _why_none(plan: WalkPlan | None) -> str:
    if plan is not None and plan.deferred:
        return f"Nothing fits now. {plan.deferred[0].deferred_why}."
    return "There is nothing to walk: no bed holds a planting."
