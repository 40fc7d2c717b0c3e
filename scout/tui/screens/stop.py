"""One stop of the walk: last visit first, then the looks, one key each; every answer is kept when given."""

from collections.abc import Callable
from functools import partial

from scout.errors import NotFound
from scout.services import answers, walk
from scout.services.context import Context
from scout.services.views import Asking, FindingView, LookView, StopView
from scout.services.wording import plants_text
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage
from scout.tui.screens.causes import CausesPage
from scout.tui.screens.symptom import SymptomPage

SEVERITY_CARD = (0, 1, 3, 5, 10, 20, 35, 50, 75)
"""Steps of leaf area with symptoms, per cent, as on printed cards."""
_CAUSES = Asking("causes", "")
_MARK = {"open": "☐", "clear": "✓", "seen": "●", "skip": "–"}


class StopPage(Page[None]):
    """The stop where the walk stands now."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context
        self._stop: StopView | None = None
        self._looked_n: int | None = None

    def opened(self) -> None:
        """Go on at the question that was on screen before a quit or a crash."""
        if self._stop is None or self._stop.asking is None:
            return
        try:
            self._resume(self._stop.asking)
        except NotFound:  # what it asked about was taken back meanwhile: the looks are asked again
            walk.ask(self._garden, self._stop.id, None)

    def view(self) -> View:
        """Show the current stop; after the last one the walk is summed up."""
        stop = walk.current_stop(self._garden)
        if stop is None:
            self.app.call_later(self._finished)
            return View("Walk")
        if self._stop is None or self._stop.id != stop.id:
            self._looked_n = stop.plants_n
        self._stop = stop
        variety = f" · {stop.variety}" if stop.variety else ""
        head = f"{stop.number}/{stop.total} {stop.bed} · {stop.crop}{variety}"
        return View(
            head, _lines(stop, self._looked_n), [_row(look) for look in stop.looks], _actions(stop), _first(stop)
        )

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
        self._ask_symptom(look)

    def _highlighted(self) -> LookView | None:
        index, looks = self.highlighted, self._now.looks
        return looks[index] if index is not None and index < len(looks) else None

    @property
    def _now(self) -> StopView:
        assert self._stop is not None
        return self._stop

    # a finding, question by question

    def _ask_symptom(self, look: LookView | None) -> None:
        stop = self._now
        page = SymptomPage(self._garden, stop.crop_id, f"{stop.bed} · {stop.crop}", look.symptoms if look else ())

        def chosen(symptom: str | None) -> None:
            if symptom is None:
                walk.ask(self._garden, stop.id, None)
                return
            manner, place = ("look", look.place) if look else ("glance", None)
            with self._garden.write():
                finding_id = answers.add_finding(self._garden, stop.id, symptom, manner, place=place)
                walk.ask(self._garden, stop.id, Asking("affected", finding_id))
            self._ask_affected(finding_id)

        self.app.push_page(page, self._kept(chosen))

    def _ask_affected(self, finding_id: str) -> None:
        finding = answers.finding(self._garden, finding_id)
        most = self._looked_n or 999
        question = (
            f"{finding.name}: on how many of {most}?" if self._looked_n else f"{finding.name}: on how many plants?"
        )

        def counted(affected: int | None) -> None:
            severity = answers.wants_severity(self._garden, finding_id)
            with self._garden.write():
                if affected is not None:
                    answers.set_counts(self._garden, finding_id, self._looked_n, affected)
                walk.ask(self._garden, self._now.id, Asking("severity", finding_id) if severity else _CAUSES)
            if severity:
                self._ask_severity(finding_id)
            else:
                self._show_causes()

        self.app.push_page(NumberPage(self._now.bed, question, most=most, given=None), self._kept(counted))

    def _ask_severity(self, finding_id: str) -> None:
        """Ask the worst third first; outer, middle, inner are the canopy thirds from below or outside."""
        thirds = answers.thirds_of(self._garden, finding_id)
        given = [share for share in answers.finding(self._garden, finding_id).severity_pct if share is not None]

        def ask_third() -> None:
            rows = [f"{share} % of the leaf area" for share in SEVERITY_CARD]
            head = f"{thirds[len(given)]} third (esc: not judged)"
            self.app.push_page(ChoicePage(head, "Leaf area with spots, in all", rows), self._kept(judged))

        def judged(number: int | None) -> None:
            if number is not None:
                given.append(float(SEVERITY_CARD[number]))
            through = number is None or len(given) == len(thirds)
            with self._garden.write():
                if number is not None:
                    outer, middle, inner = (*given, None, None, None)[:3]
                    answers.set_severity(self._garden, finding_id, outer, middle, inner)
                if through:
                    walk.ask(self._garden, self._now.id, _CAUSES)
            if through:
                self._show_causes()
            else:
                ask_third()

        if len(given) < len(thirds):
            ask_third()
        else:
            self._rank()

    def _rank(self) -> None:
        walk.ask(self._garden, self._now.id, _CAUSES)
        self._show_causes()

    def _show_causes(self) -> None:
        def back(_: None) -> None:
            walk.ask(self._garden, self._now.id, None)

        self.app.push_page(CausesPage(self._garden, self._now.id), self._kept(back))

    def _kept(self, act: Callable[..., None]) -> Callable[..., None]:
        """Return the callback with errors said in one sentence."""
        return lambda value: self.attempt(lambda: act(value))

    def _resume(self, asking: Asking) -> None:
        if asking.what == "symptom":
            self._ask_symptom(next((look for look in self._now.looks if look.id == asking.subject), None))
        elif asking.what == "affected":
            self._ask_affected(asking.subject)
        elif asking.what == "severity":
            self._ask_severity(asking.subject)
        else:
            self._show_causes()

    # the whole stop

    def do_glance(self) -> None:
        """Glanced over the plants shown, nothing caught the eye."""
        walk.clear(self._garden, self._now.id, "glance", self._looked_n or 1)
        self.show()

    def do_all_looks(self) -> None:
        """Every planned look made, nothing seen."""
        walk.clear(self._garden, self._now.id, "every_look", self._looked_n or 1)
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

        def chosen(number: int | None) -> None:
            if number is not None:
                walk.defer(self._garden, self._now.id, reasons[number])

        self.app.push_page(ChoicePage("Leave it for later", "Why?", reasons), self._kept(chosen))

    def do_find(self) -> None:
        """Something else caught the eye."""
        walk.ask(self._garden, self._now.id, Asking("symptom", ""))
        self._ask_symptom(None)

    def do_causes(self) -> None:
        """Rank the causes of what was seen here."""
        self._rank()

    def do_count_plants(self) -> None:
        """Say how many plants are looked at."""

        def counted(number: int | None) -> None:
            if number:
                self._looked_n = number

        page = NumberPage(self._now.bed, "How many plants do you look at?", most=9999, least=1, given=self._looked_n)
        self.app.push_page(page, self._kept(counted))

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
        def chosen(number: int | None) -> None:
            if number is not None:
                act(self._garden, self._now.id, rows[number][0])
                self.say(f"Noted: {rows[number][1]}")

        self.app.push_page(ChoicePage(head, "", [text for _, text in rows]), self._kept(chosen))

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

    def do_photo(self) -> None:
        """Attach a picture."""
        from scout.tui.screens.photo import PhotoPage

        self.app.push_page(PhotoPage(self._garden, self._now.id))

    def do_undo(self) -> None:
        """Take back the last thing given."""
        self.say(walk.undo(self._garden))
        self.show()


def _lines(stop: StopView, looked_n: int | None) -> list[Line]:
    lines = [Line(f"! {hold}", "bold reverse") for hold in stop.holds]
    lines += [Line(f"Last time: {text}", "bold") for text in stop.last_visit[:1]]
    lines += [Line(f"  {text}") for text in stop.last_visit[1:]]
    lines += [Line(f"Open problem: {text}") for text in stop.troubles]
    lines += [Line(f"Going on {stop.going_on}")] if stop.going_on else []
    lines.append(Line(f"Why: {stop.why} · looking at {looked_n or '?'} plants"))
    if stop.marked_due:
        lines.append(Line(f"{stop.marked_due} marked plants to measure (v)", "bold"))
    if any(stop.picks):
        lines.append(Line(f"Picked: {stop.picks[0]} sound, {stop.picks[1]} odd"))
        lines += [Line(text) for text in stop.pick_lines]
    lines += [Line(f"● {_finding(f)}", "bold") for f in stop.findings if f.seen]
    return lines


def _finding(finding: FindingView) -> str:
    count = plants_text(finding.affected_n, finding.looked_n)
    which = f" ({finding.which_plants})" if finding.which_plants else ""
    return f"{finding.name}{count}{which}"


def _row(look: LookView) -> str:
    return f"{_MARK[look.state]} {look.ask}"


def _first(stop: StopView) -> int:
    return next((n for n, look in enumerate(stop.looks) if look.state == "open"), max(0, len(stop.looks) - 1))


def _actions(stop: StopView) -> tuple[str, ...]:
    """Return the keys, most wanted first: before anything is answered the two clear keys, afterwards the looks'."""
    begun = any(look.state != "open" for look in stop.looks) or bool(stop.findings)
    clear_keys = ["glance"] if not begun else []
    if stop.may_clear_all and not any(look.state == "seen" for look in stop.looks):
        clear_keys.append("all_looks")
    if stop.may_clear_bed and not begun:
        clear_keys.append("bed_clear")
    look_keys = ["next_stop"] if begun else []
    look_keys += ["seen", "clear", "skip"]
    rest = [] if begun else ["next_stop"]
    rest += ["find", "causes", "later", "count_plants", "pick_sound", "pick_odd", "which", "note", "photo"]
    rest += ["marked", "watering", "enemies", "pest_count", "hold", "back"]
    first = look_keys[:1] + clear_keys + look_keys[1:] if begun else clear_keys + look_keys
    return (*first, *rest)
