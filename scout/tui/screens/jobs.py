"""Jobs by due date: done, skipped with a reason, or looked at again."""

from functools import partial

from scout.services import counting, troubles
from scout.services.context import Context
from scout.services.job_words import how_lines, job_row, place
from scout.services.troubles import JobLine
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import ChoicePage, TextPage
from scout.tui.screens.outcome import OutcomePage, ask_count


class JobsPage(GardenPage[None]):
    """Open jobs and results to look at; of one planting where it was opened at its stop."""

    def __init__(self, context: Context, planting_id: str | None = None) -> None:
        super().__init__(context)
        self._planting_id = planting_id
        self._jobs: tuple[JobLine, ...] = ()
        self._by_bed = False

    def view(self) -> View:
        """List them, the longest due first, or bed by bed."""
        self._jobs = troubles.job_lines(self._garden, by_bed=self._by_bed, planting_id=self._planting_id)
        lines = [] if self._jobs else [Line("Nothing to do.")]
        rows = [job_row(job, self._garden.today) for job in self._jobs]
        of_one = self._planting_id is not None
        actions = ("own_job", *(() if of_one else ("by_bed", "holds", "calendar")), "undo", "back")
        return View("Jobs here" if of_one else "Jobs", lines, rows, actions)

    def picked(self, index: int) -> None:
        """Ask what became of the job."""
        job = self._jobs[index]
        if job.look_again:
            self.app.push_page(OutcomePage(self._garden, job))
            return
        again = troubles.again_after_d(self._garden, job.id)
        rows = ["Done now", "Will not be done", f"Done now, and again in {again} days"]

        acts = (lambda: self._done(job, None), lambda: self._skip(job), lambda: self._done(job, again))
        how = "\n".join((place(job), *how_lines(self._garden, job)))
        self.ask(ChoicePage(job.title, how, rows), lambda number: acts[number]())

    def _done(self, job: JobLine, again_in_d: int | None) -> None:
        """Keep it, then ask for what will be wanted later: the label's times, or what there was before."""
        troubles.job_done(self._garden, job.id, again_in_d=again_in_d)
        if job.labelled and job.planting_id:
            from scout.tui.screens.holds import just_used

            just_used(self, self._garden, job.planting_id)
            return
        measure = counting.measure_of(self._garden, counting.job_of(self._garden, job.id))
        if measure is not None and measure.way != "picks":
            ask_count(self, self._garden, job, measure, "before")

    def do_by_bed(self) -> None:
        """Change between due days and beds."""
        self._by_bed = not self._by_bed
        self.show()

    def do_own_job(self) -> None:
        """Add a job of the grower's own."""
        from scout.tui.screens.own_job import ask_own_job

        ask_own_job(self, self._garden, self._planting_id)

    def do_calendar(self) -> None:
        """Write the jobs as a calendar file into the data folder."""
        from scout.services.job_calendar import write_own_calendar

        self.say(write_own_calendar(self._garden))

    def do_holds(self) -> None:
        """Show what may not be eaten yet."""
        from scout.tui.screens.holds import HoldsPage

        self.app.push_page(HoldsPage(self._garden))

    def _skip(self, job: JobLine) -> None:
        keep = partial(troubles.job_skipped, self._garden, job.id)
        self.app.push_page(TextPage(job.title, "Why not?", keep=keep))
