"""The first screen: the day, the heat, what is due. The store is opened after this is on screen."""

from datetime import date
from threading import Event
from typing import TYPE_CHECKING

from scout.plain import counted, day_text
from scout.services.context import Context
from scout.tui.page import GardenPage, Line, View

if TYPE_CHECKING:
    from scout.services.alerts import Alert
    from scout.services.today import TodayView

_NEEDS_NO_LIBRARY = ("quit", "theme", "help", "more")
_LONGEST_LOAD_S = 60.0


class TodayPage(GardenPage[None]):
    """What is due today; before there is a garden, the ways to begin."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._opened = False
        self._first: TodayView | None = None
        self._error = ""
        self._walking = False
        self._alerts: tuple[Alert, ...] = ()
        self._warmed = Event()
        self._warmed.set()

    @property
    def ready(self) -> bool:
        """Return whether the garden is open, or said why it cannot be."""
        return self._opened or bool(self._error)

    def opened(self) -> None:
        """Open the store in a worker after the frame is drawn, so that the first paint waits for nothing."""
        self.call_after_refresh(self._open)

    def _open(self) -> None:
        self.run_worker(self._load, group="open")

    def _load(self) -> None:
        """Load the slow libraries, the knowledge and the first view off the screen's thread."""
        from scout.services.today import today_view

        view, error = None, ""
        try:
            view = today_view(self._garden)
        except Exception as failed:  # noqa: BLE001 (whatever goes wrong is shown as one sentence, not lost in a thread)
            error = str(failed) or type(failed).__name__
        self.app.call_later(self._loaded, view, error)  # waits for no answer: the app may have been left meanwhile

    def _loaded(self, view: "TodayView | None", error: str) -> None:
        """Show the first view, or why there is none."""
        self._first, self._error, self._opened = view, error, not error
        self.show()
        self.call_after_refresh(self.sheet.furnish)
        if self._opened and self._warmed.is_set():
            self._warmed.clear()
            self.run_worker(self._warm, group="warm")

    def _warm(self) -> None:
        """Load what the pages of a walk need while the grower reads, so that no key waits for a library."""
        from scout.services.warm_up import load_libraries
        from scout.tui.screens import help, marked, plan, stop, summary

        try:
            assert help and marked and plan and stop and summary
            load_libraries()
        finally:
            self._warmed.set()
        if not self.app.is_headless:  # a test is over before it pays
            self._get_ready()

    def _get_ready(self) -> None:
        """Make what the first ranking of each crop would make, then spare all that is loaded the sweeps for garbage.

        A sweep over the knowledge and the libraries took 150 ms in the midst of a key.
        """
        import gc

        from textual.worker import get_current_worker

        from scout.services.warm_up import try_rankings

        worker = get_current_worker()
        if self._garden.garden_id is not None and all(not worker.is_cancelled for _ in try_rankings(self._garden)):
            gc.freeze()

    def do(self, name: str) -> None:
        """Do what a key stands for, once the libraries are in: two threads that load the same ones trip each other."""
        if name not in _NEEDS_NO_LIBRARY:
            self._warmed.wait(_LONGEST_LOAD_S)
        super().do(name)

    def view(self) -> View:
        """Show what is due, or how to begin."""
        if self._error:
            return View("Bedwalk", [Line("The garden cannot be opened.", "bold"), Line(self._error)], actions=("quit",))
        if not self._opened:
            return View("Bedwalk", [Line("Opening the garden…")], actions=("quit",))
        from scout.services.today import today_view

        today, self._first = self._first or today_view(self._garden), None
        if today.site is None:
            return View(
                "Bedwalk",
                [Line("No garden here yet. How would you like to begin?", "bold")],
                ["Set up my garden", "Take in a garden file (TOML or CSV)", "Open the demo garden"],
                ("quit",),
            )
        self._walking = today.walking
        rows = [today.walk_row, today.jobs_row, "Weather", "Beds and plantings", today.tomorrow_row]
        self._alerts = today.alerts
        away: tuple[str, ...] = ("alerts",) if today.alerts else ()
        actions = ("walk", "jobs", "weather", "garden", *away, "guide", "gaps", "undo", "theme", "quit")
        lines = [Line(text) for text in today.lines] + [Line(f"* {alert.text}") for alert in today.alerts]
        return View(today.head, lines, rows, actions)

    def picked(self, index: int) -> None:
        """Open what the row stands for."""
        if not self._opened:
            return
        self._warmed.wait(_LONGEST_LOAD_S)
        if self._garden.garden_id is None:
            (self._set_up, self._take_in, self._demo)[index]()
        else:
            (self.do_walk, self.do_jobs, self.do_weather, self.do_garden, self._coming)[index]()

    def _set_up(self) -> None:
        from scout.tui.screens.setup import SetUp

        SetUp(self, self._garden).begin()

    def _take_in(self) -> None:
        from pathlib import Path

        from scout.services.garden_import import import_garden
        from scout.tui.screens.ask import TextPage

        def keep(text: str) -> None:
            beds, plantings = import_garden(self._garden, Path(text).expanduser())
            self.say(f"Taken in: {counted(beds, 'bed')}, {counted(plantings, 'planting')}.")

        self.app.push_page(TextPage("Garden file", "Where does the file lie?", hint="Such as ~/garden.toml", keep=keep))

    def _demo(self) -> None:
        """Grow the demo garden off the screen's thread: a season takes some seconds to replay."""
        self.say("Growing the demo garden, some seconds…")
        self.run_worker(self._grow, group="open")

    def _grow(self) -> None:
        from scout.services.demo import demo_context

        self.app.call_from_thread(self._switch, demo_context())

    def _switch(self, context: Context) -> None:
        self._garden = context
        self._opened = False
        self.show()
        self._open()

    def do_walk(self) -> None:
        """Go on with the walk, or look at the plan first; one of an earlier day may be ended."""
        from scout.services.walk import begun_on
        from scout.tui.screens.plan import PlanPage
        from scout.tui.screens.stop import StopPage

        begun = begun_on(self._garden) if self._walking else None
        if begun is not None and begun < self._garden.today.isoformat():
            self._old_walk(date.fromisoformat(begun))
        else:
            self.app.push_page(StopPage(self._garden) if self._walking else PlanPage(self._garden))

    def _old_walk(self, begun: date) -> None:
        from scout.services import walk
        from scout.tui.screens.ask import ChoicePage
        from scout.tui.screens.plan import PlanPage
        from scout.tui.screens.stop import StopPage

        def chosen(number: int) -> None:
            if number:
                walk.finish(self._garden)
            self.app.push_page(PlanPage(self._garden) if number else StopPage(self._garden))

        rows = ["Go on with it", "End it, and plan today anew"]
        self.ask(ChoicePage("Walk", f"The walk of {day_text(begun)} was not finished.", rows), chosen)

    def do_jobs(self) -> None:
        """Show the jobs."""
        from scout.tui.screens.jobs import JobsPage

        self.app.push_page(JobsPage(self._garden))

    def do_weather(self) -> None:
        """Show the weather."""
        from scout.tui.screens.weather import WeatherPage

        self.app.push_page(WeatherPage(self._garden))

    def do_garden(self) -> None:
        """Show the beds."""
        from scout.tui.screens.beds import BedsPage

        self.app.push_page(BedsPage(self._garden))

    def do_guide(self) -> None:
        """Read about crops and their troubles."""
        from scout.tui.screens.guide import GuidePage

        if self._opened:
            self.app.push_page(GuidePage(self._garden))

    def do_alerts(self) -> None:
        """Choose a line to put away."""
        from scout.tui.screens.alerts import put_one_away

        put_one_away(self, self._garden, self._alerts)

    def do_gaps(self) -> None:
        """Show the gaps in picking that are coming."""
        from scout.services.gaps import gaps_ahead
        from scout.tui.screens.ask import NoticePage

        if not self._opened:
            return
        found = gaps_ahead(self._garden)
        lines = [Line(text, "" if n else "bold") for view in found for n, text in enumerate(view.lines)]
        self.app.push_page(NoticePage("Gaps ahead", lines or [Line("No gap in picking is to be seen ahead.")]))

    def _coming(self) -> None:
        from scout.services.plan import coming_lines
        from scout.tui.screens.ask import NoticePage

        lines = [Line(text) for text in coming_lines(self._garden)]
        self.app.push_page(NoticePage("Next looks", lines))

    def do_undo(self) -> None:
        """Take back the last thing given."""
        if self._opened:
            super().do_undo()

    def do_theme(self) -> None:
        """Change between sun and night."""
        self.app.theme = "night" if self.app.theme == "sun" else "sun"

    def do_back(self) -> None:
        """The first screen has nothing behind it."""

    def action_back(self) -> None:
        """The first screen has nothing behind it."""
