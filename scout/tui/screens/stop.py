"""One stop of the walk: last visit first, then the looks, one key each; every answer is kept when given."""

from collections.abc import Callable
from functools import partial

from scout.errors import NotFound
from scout.services import answers, walk
from scout.services.context import Context
from scout.services.views import Asking, LookView, StopView
from scout.tui.page import GardenPage, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage
from scout.tui.screens.finding import FindingQuestions
from scout.tui.screens.stop_shown import stop_shown


class StopPage(GardenPage[None]):
    """The stop where the walk stands now."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._stop: StopView | None = None
        self._looked_n: int | None = None

    def opened(self) -> None:
        """Go on at the question that was on screen before a quit or a crash."""
        if self._stop is None or self._stop.asking is None:
            return
        try:
            self._finding().resume(self._stop.asking)
        except NotFound:  # what it asked about was taken back meanwhile: the looks are asked again
            walk.ask(self._garden, self._stop.id, None)

    def view(self) -> View:
        """Show the current stop; after the last one the walk is summed up."""
        stop = walk.current_stop(self._garden)
        if stop is None:
            self.app.call_later(self._finished)
            return View("Walk")
        if self._stop is None or self._stop.id != stop.id:
            self._looked_n = stop.looked_n
        self._stop = stop
        return stop_shown(stop, self._looked_n)

    def _finished(self) -> None:
        from scout.tui.screens.summary import SummaryPage

        self.app.replace_page(SummaryPage(self._garden))

    # the looks

    def picked(self, index: int) -> None:
        """A look was chosen: something was seen there."""
        self._seen_at(self._now.looks[index])

    def do_clear(self) -> None:
        """This look made, nothing seen."""
        self._answer("clear")

    def do_skip(self) -> None:
        """This look not made."""
        self._answer("skip")

    def do_seen(self) -> None:
        """Something seen at this look."""
        look = self._highlighted()
        if look is not None:
            self._seen_at(look)

    def _answer(self, answer: str) -> None:
        look = self._highlighted()
        if look is not None:
            answers.answer_look(self._garden, self._now.id, look.id, answer, self._looked_n)
            self.show()

    def _seen_at(self, look: LookView) -> None:
        with self._garden.write():  # answer and next question in one act: a crash cannot part them
            answers.answer_look(self._garden, self._now.id, look.id, "seen", self._looked_n)
            walk.ask(self._garden, self._now.id, Asking("symptom", look.id))
        self._finding().ask_symptom(look)

    def _finding(self) -> FindingQuestions:
        return FindingQuestions(self, self._garden, self._now, self._looked_n)

    def _highlighted(self) -> LookView | None:
        index, looks = self.highlighted, self._now.looks
        return looks[index] if index is not None and index < len(looks) else None

    @property
    def _now(self) -> StopView:
        assert self._stop is not None
        return self._stop

    # elsewhere

    def do_to_bed(self) -> None:
        """Stand at another stop of this walk."""
        from scout.services.walk_elsewhere import go_to, waiting_stops

        waiting = [stop for stop in waiting_stops(self._garden) if stop.id != self._now.id]
        if not waiting:
            self.say("No other bed waits in this walk. Beds on the first screen open any planting.")
            return
        page = ChoicePage("Go to", "", [stop.row for stop in waiting])
        self.ask(page, lambda number: go_to(self._garden, waiting[number].id))

    def do_end_walk(self) -> None:
        """End the walk; what was given is kept."""
        walk.finish(self._garden)
        self.show()

    # the whole stop

    def do_glance(self) -> None:
        """Glanced over the plants shown, nothing caught the eye."""
        self._clear_all("glance")

    def do_all_looks(self) -> None:
        """Every planned look made, nothing seen."""
        self._clear_all("every_look")

    def _clear_all(self, kind: str) -> None:
        """Close the stop as clear; where the plants were never counted, on how many is asked, not made up."""
        if self._looked_n is None:
            self._ask_looked_n(lambda: self._clear_all(kind))
            return
        walk.clear(self._garden, self._now.id, kind, self._looked_n)
        self.show()

    def do_bed_clear(self) -> None:
        """Every planned look made on every planting of this bed."""
        walk.clear_bed(self._garden, self._now.id)
        self.show()

    def do_next_stop(self) -> None:
        """Close this stop, or pass it by where nothing was answered."""
        walk.leave_stop(self._garden, self._now.id)
        self.show()

    def do_later(self) -> None:
        """Leave it for the evening."""
        reasons = ["The leaves are wet", "Too hot now", "No time", "Someone else looks"]
        page = ChoicePage("Leave it for later", "Why?", reasons)
        self.ask(page, lambda number: walk.defer(self._garden, self._now.id, reasons[number]))

    def do_find(self) -> None:
        """Something else caught the eye."""
        walk.ask(self._garden, self._now.id, Asking("symptom", ""))
        self._finding().ask_symptom(None)

    def do_causes(self) -> None:
        """Rank the causes of what was seen here."""
        self._finding().rank()

    def do_count_plants(self) -> None:
        """Say how many plants are looked at."""
        self._ask_looked_n(lambda: None)

    def _ask_looked_n(self, then: Callable[[], object]) -> None:
        def answered(number: int) -> None:
            self._looked_n = number
            then()

        page = NumberPage(self._now.bed, "How many plants do you look at?", most=9999, least=1, given=self._looked_n)
        self.ask(page, answered)

    def do_pick_sound(self) -> None:
        """One more sound piece."""
        answers.tally(self._garden, self._now.id, sound=1)
        self.show()

    def do_pick_odd(self) -> None:
        """One more odd piece."""
        answers.tally(self._garden, self._now.id, odd=1)
        self.show()

    def do_note(self) -> None:
        """Write a line for the next visit."""
        keep = partial(answers.note, self._garden, self._now.id)
        self.app.push_page(TextPage(self._now.bed, "A line for the next visit", keep=keep))

    def do_which(self) -> None:
        """Say which plants the newest finding is on."""
        seen = [f for f in self._now.findings if f.seen]
        if not seen:
            self.say("Nothing is noted here yet; note what was seen first.")
            return
        hint = "Such as: 3rd and 5th from the path"
        keep = partial(answers.set_which, self._garden, seen[-1].id)
        self.app.push_page(TextPage(seen[-1].name, "Which plants?", hint=hint, keep=keep))

    def do_watering(self) -> None:
        """Log the water of this bed's zone."""
        self._from_list("Water here", answers.WATERINGS, answers.log_watering)

    def do_enemies(self) -> None:
        """Log natural enemies."""
        self._from_list("Which friends?", answers.enemies(self._garden), answers.log_enemy)

    def _from_list(
        self, head: str, rows: tuple[tuple[str, str], ...], act: Callable[[Context, str, str], None]
    ) -> None:
        def chosen(number: int) -> None:
            act(self._garden, self._now.id, rows[number][0])
            self.say(f"Noted: {rows[number][1]}")

        self.ask(ChoicePage(head, "", [text for _, text in rows]), chosen)

    def do_marked(self) -> None:
        """Measure the marked plants."""
        from scout.tui.screens.marked import MarkedPage

        self.app.push_page(MarkedPage(self._garden, self._now.planting_id, self._now.id))

    def do_pest_count(self) -> None:
        """Count a pest against its mark."""
        from scout.tui.screens.pest_count import PestCount

        PestCount(self, self._garden, self._now.planting_id, self._looked_n).ask()

    def do_hold(self) -> None:
        """Enter that a labelled product was used."""
        from scout.tui.screens.holds import just_used

        just_used(self, self._garden, self._now.planting_id)

    def do_jobs(self) -> None:
        """Show the jobs of this planting."""
        from scout.tui.screens.jobs import JobsPage

        self.app.push_page(JobsPage(self._garden, self._now.planting_id))

    def do_photo(self) -> None:
        """Attach a picture."""
        from scout.tui.screens.photo import PhotoPage

        self.app.push_page(PhotoPage(self._garden, self._now.id))
