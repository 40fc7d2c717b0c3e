"""The walk before it begins: clean beds first, then the sick ones, each with its why."""

from scout.services import walk
from scout.services.context import Context
from scout.services.plan import WASH, walk_plan
from scout.services.views import PlannedStop, WalkPlan
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import NumberPage


class PlanPage(Page[None]):
    """Today's stops in walking order."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context
        self._minutes: int | None = None
        self._plan: WalkPlan | None = None

    def view(self) -> View:
        """Show the order and what waits."""
        plan = walk_plan(self._garden, self._minutes)
        if not plan.stops and not plan.deferred:
            plan = walk_plan(self._garden, self._minutes, everything=True)
        self._plan = plan
        lines = [Line(text) for text in plan.lines if text != WASH]
        if plan.deferred:
            lines.append(Line(f"{len(plan.deferred)} wait for the evening: no time before the heat.", "bold"))
        head = f"{len(plan.stops)} stops, about {plan.minutes:.0f} minutes"
        return View(head, lines, [_row(stop) for stop in plan.stops], ("go", "minutes", "back"))

    def do_go(self) -> None:
        """Begin the walk."""
        from scout.tui.screens.stop import StopPage

        if self._plan is None or not self._plan.stops:
            self.say("There is nothing to walk: no bed holds a planting.")
            return
        walk.start(self._garden, (*self._plan.stops, *self._plan.deferred))
        self.app.switch_screen(StopPage(self._garden))

    def picked(self, index: int) -> None:
        """Begin the walk; a row is only there to be read."""
        self.do_go()

    def do_minutes(self) -> None:
        """Say how many minutes there are."""

        def counted(minutes: int | None) -> None:
            self._minutes = minutes

        page = NumberPage("Minutes", "How many minutes are there?", most=600, given=self._minutes)
        self.app.push_screen(page, counted)


def _row(stop: PlannedStop) -> str:
    mark = {"suspect": "!! ", "spotted": "! ", "insects": "~ "}.get(stop.group, "")
    return f"{mark}{stop.bed} · {stop.crop} — {stop.why}"
