"""Jobs by due date: done, skipped with a reason, or looked at again."""

from functools import partial

from scout.services import troubles
from scout.services.context import Context
from scout.services.troubles import JobLine
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, TextPage

_VERDICTS = (("yes", "Yes, it worked"), ("no", "No"), ("cannot_tell", "Cannot tell yet"))


class JobsPage(Page[None]):
    """Open jobs and results to look at."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context
        self._jobs: tuple[JobLine, ...] = ()

    def view(self) -> View:
        """List them, the longest due first."""
        self._jobs = troubles.job_lines(self._garden)
        lines = [] if self._jobs else [Line("Nothing to do.")]
        return View("Jobs", lines, [_row(job) for job in self._jobs], ("holds", "undo", "back"))

    def picked(self, index: int) -> None:
        """Ask what became of the job."""
        job = self._jobs[index]
        if job.look_again:
            self._judge(job)
            return
        rows = ["Done now", "Will not be done"]

        def chosen(number: int | None) -> None:
            if number == 0:
                self._done(job)
            elif number == 1:
                self._skip(job)

        self.app.push_screen(ChoicePage(job.title, job.bed, rows), lambda n: self.attempt(lambda: chosen(n)))

    def _done(self, job: JobLine) -> None:
        troubles.job_done(self._garden, job.id)
        if job.labelled and job.planting_id:
            from scout.tui.screens.holds import just_used

            just_used(self, self._garden, job.planting_id)

    def do_holds(self) -> None:
        """Show what may not be eaten yet."""
        from scout.tui.screens.holds import HoldsPage

        self.app.push_screen(HoldsPage(self._garden))

    def _skip(self, job: JobLine) -> None:
        keep = partial(troubles.job_skipped, self._garden, job.id)
        self.app.push_screen(TextPage(job.title, "Why not?", keep=keep))

    def _judge(self, job: JobLine) -> None:
        question = "\n".join(("Did it work?", *troubles.worked_when(self._garden, job.id)))

        def chosen(number: int | None) -> None:
            if number is not None:
                troubles.judged(self._garden, job.id, _VERDICTS[number][0])

        page = ChoicePage(job.title, question, [text for _, text in _VERDICTS])
        self.app.push_screen(page, lambda n: self.attempt(lambda: chosen(n)))

    def do_undo(self) -> None:
        """Take back the last thing given."""
        from scout.services import walk

        self.say(walk.undo(self._garden))
        self.show()


def _row(job: JobLine) -> str:
    late = "late · " if job.overdue else ""
    again = "look again: " if job.look_again else ""
    return f"{job.due_on} {late}{job.bed} · {again}{job.title}"
