"""Did it work: the answer from the counts, the figures behind it, and the keys to count or to say so by eye."""

from collections.abc import Callable
from typing import Any

from scout.knowledge.control_file import Measure
from scout.services import counting, troubles
from scout.services.context import Context
from scout.services.counting import Count, Phase
from scout.services.job_outcome import JobOutcome, job_outcome
from scout.services.job_words import outcome_words, place
from scout.services.marked import marked_plants
from scout.services.troubles import JobLine
from scout.tui.page import GardenPage, Line, Page, View
from scout.tui.screens.ask import NumberPage

_VERDICTS = (("yes", "Yes, it worked"), ("no", "No"), ("cannot_tell", "Cannot tell yet"))
_MOST = 9_999


class OutcomePage(GardenPage[None]):
    """One done job at its re-look."""

    def __init__(self, context: Context, job: JobLine) -> None:
        super().__init__(context)
        self._job = job
        self._acts: tuple[tuple[str, Callable[[], None]], ...] = ()

    def view(self) -> View:
        """Show the answer, the figures, what to count."""
        answer = job_outcome(self._garden, self._job.id)
        measure = counting.measure_of(self._garden, counting.job_of(self._garden, self._job.id))
        told_by = (("The marked plants here: is it keeping up?", self._keeping_up),) if self._marked() else ()
        self._acts = (*told_by, *self._counts(measure), *((text, self._said(key)) for key, text in _VERDICTS))
        told = () if answer.why == "not_counted" else troubles.worked_when(self._garden, self._job.id)
        told = told[1:] if measure is not None else told  # what to count is said with how many already
        lines = [Line(self._job.title, "bold"), Line("Did it work?"), Line(answer.lines[0], "bold")]
        lines += [Line(text) for text in (*answer.lines[1:], *told) if text]
        rows = [text for text, _ in self._acts]
        return View(f"{place(self._job)} · look again", lines, rows, ("undo", "back"), self._first(answer, len(rows)))

    def _marked(self) -> bool:
        """Return whether marked plants tell what this job did: it takes leaves off."""
        control = counting.job_of(self._garden, self._job.id).control
        strips = control is not None and "share_rule" in self._garden.knowledge.controls[control].needs
        return strips and self._job.planting_id is not None and bool(marked_plants(self._garden, self._job.planting_id))

    def _keeping_up(self) -> None:
        from scout.tui.screens.marked import MarkedPage

        self.app.push_page(MarkedPage(self._garden, self._job.planting_id or "", None))

    def _counts(self, measure: Measure | None) -> tuple[tuple[str, Callable[[], None]], ...]:
        if measure is None or measure.way == "picks":
            return ()
        return (
            (f"Count now: {measure.what}", lambda: self._count(measure, "after", untreated=False)),
            ("Count plants left untreated", lambda: self._count(measure, "after", untreated=True)),
        )

    def _first(self, answer: JobOutcome, rows_n: int) -> int:
        """Return the row that is likeliest next: the count that is missing, else the answer that was worked out."""
        if answer.why == "no_after":
            return 0
        return rows_n - 3 + [key for key, _ in _VERDICTS].index(answer.verdict)

    def _count(self, measure: Measure, phase: Phase, *, untreated: bool) -> None:
        ask_count(self, self._garden, self._job, measure, phase, untreated=untreated)

    def _said(self, verdict: str) -> Callable[[], None]:
        def act() -> None:
            troubles.judged(self._garden, self._job.id, verdict)
            self.say(outcome_words(self._garden, self._job.id, verdict))
            self.dismiss(None)

        return act

    def picked(self, index: int) -> None:
        """Count, or say whether it worked."""
        self._acts[index][1]()


def ask_count(
    page: Page[Any], context: Context, job: JobLine, measure: Measure, phase: Phase, *, untreated: bool = False
) -> None:
    """Ask on how many was looked, then how many were found, and keep both."""
    where = "untreated " if untreated else ""
    head = f"{job.bed} · {'before it' if phase == 'before' else 'now'}"

    def looked(of: int) -> None:
        most = of if measure.way == "share" else _MOST
        question = f"{measure.what.capitalize()} on these {of} {where}{measure.unit}?"
        page.ask(NumberPage(head, question, most=most), lambda n: found(n, of))

    def found(n: int, of: int) -> None:
        counting.keep_count(context, job.id, phase, Count(n, of), untreated=untreated)

    question = f"How many {where}{measure.unit} did you look at? (esc: not counted)"
    page.ask(NumberPage(head, question, most=_MOST, least=1, given=measure.looked), looked)
