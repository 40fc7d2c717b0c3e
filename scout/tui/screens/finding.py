"""One thing that was seen: what it is, on how many plants, how much of the leaf, then the likely causes."""

from typing import Any

from scout.services import answers, walk
from scout.services.context import Context
from scout.services.symptom_list import likeliest
from scout.services.views import Asking, LookView, StopView
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, NumberPage
from scout.tui.screens.causes import CausesPage
from scout.tui.screens.symptom import SymptomPage

SEVERITY_CARD = (0, 1, 3, 5, 10, 20, 35, 50, 75)
"""Steps of leaf area with symptoms, per cent, as on printed cards."""
_CAUSES = Asking("causes", "")


class FindingQuestions:
    """The questions of one finding at a stop; each answer is kept in one act with the question that comes next.

    So a crash cannot part them, and a walk resumes at the question that was on screen.
    """

    def __init__(self, page: Page[Any], context: Context, stop: StopView, looked_n: int | None) -> None:
        self._page, self._garden, self._stop, self._looked_n = page, context, stop, looked_n

    def resume(self, asking: Asking) -> None:
        """Ask what was on screen before a quit or a crash; NotFound where it was taken back meanwhile."""
        if asking.what == "symptom":
            self.ask_symptom(next((look for look in self._stop.looks if look.id == asking.subject), None))
        elif asking.what == "affected":
            self._ask_affected(asking.subject)
        elif asking.what == "severity":
            self._ask_severity(asking.subject)
        else:
            self._show_causes()

    def ask_symptom(self, look: LookView | None) -> None:
        """Ask what was seen at a look; None: at none of them."""
        offered = look.symptoms if look else likeliest(self._garden, self._stop.planting_id)
        page = SymptomPage(self._garden, self._stop, offered)

        def chosen(symptom: str | None) -> None:
            if symptom is None:
                self._now_asking(None)
                return
            manner, place = ("look", look.place) if look else ("glance", None)
            with self._garden.write():
                finding_id = answers.add_finding(self._garden, self._stop.id, symptom, manner, place=place)
                self._now_asking(Asking("affected", finding_id))
            self._ask_affected(finding_id)

        self._page.app.push_page(page, chosen)

    def _ask_affected(self, finding_id: str) -> None:
        name = answers.finding(self._garden, finding_id).name
        question = f"{name}: on how many of {self._looked_n}?" if self._looked_n else f"{name}: on how many plants?"

        def counted(affected: int | None) -> None:
            severity = answers.wants_severity(self._garden, finding_id)
            with self._garden.write():
                if affected is not None:
                    answers.set_counts(self._garden, finding_id, self._looked_n, affected)
                self._now_asking(Asking("severity", finding_id) if severity else _CAUSES)
            if severity:
                self._ask_severity(finding_id)
            else:
                self._show_causes()

        self._page.app.push_page(NumberPage(self._stop.bed, question, most=self._looked_n or 999), counted)

    def _ask_severity(self, finding_id: str) -> None:
        """Ask the worst third first; outer, middle, inner are the canopy thirds from below or outside."""
        thirds = answers.thirds_of(self._garden, finding_id)
        given = [share for share in answers.finding(self._garden, finding_id).severity_pct if share is not None]

        def ask_third() -> None:
            rows = [f"{share} % of the leaf area" for share in SEVERITY_CARD]
            head = f"{thirds[len(given)]} third (esc: not judged)"
            self._page.app.push_page(ChoicePage(head, "Leaf area that shows it, in all", rows), judged)

        def judged(number: int | None) -> None:
            if number is not None:
                given.append(float(SEVERITY_CARD[number]))
            through = number is None or len(given) == len(thirds)
            with self._garden.write():
                if number is not None:
                    outer, middle, inner = (*given, None, None, None)[:3]
                    answers.set_severity(self._garden, finding_id, outer, middle, inner)
                if through:
                    self._now_asking(_CAUSES)
            if through:
                self._show_causes()
            else:
                ask_third()

        if len(given) < len(thirds):
            ask_third()
        else:
            self.rank()

    def rank(self) -> None:
        """Show the likely causes of what was seen here."""
        self._now_asking(_CAUSES)
        self._show_causes()

    def _show_causes(self) -> None:
        page = CausesPage(self._garden, self._stop.id)
        self._page.app.push_page(page, lambda _: self._now_asking(None))

    def _now_asking(self, asking: Asking | None) -> None:
        walk.ask(self._garden, self._stop.id, asking)
