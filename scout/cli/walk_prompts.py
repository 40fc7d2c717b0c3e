"""The whole walk as questions, line by line, in plain text: for a screen reader or a terminal without a screen."""

from collections.abc import Callable

from scout.cli.asking import agree, choose, line, read
from scout.cli.printing import say
from scout.cli.typed import count, shares
from scout.cli.walk import begin
from scout.cli.walk_answers import confirmed
from scout.cli.walk_causes import show_causes
from scout.errors import BadInput, BedwalkError
from scout.plain import counted
from scout.services import answers, causes, noted, walk
from scout.services.context import Context
from scout.services.fruit_size import give_size
from scout.services.named import cause_named, control_named, enemy_named, look_named
from scout.services.spoken_walk import finding_line, page_lines, stop_here, stop_lines, summary_lines
from scout.services.undo import undo
from scout.services.views import StopView

HELP = (
    "g  glanced over, nothing caught my eye",
    "a  every look made, nothing seen; b  the same for the whole bed",
    "c 1  look 1 clear; s 1  something seen at look 1; k 1  not looked at",
    "f  something else was seen; r  the likely causes",
    "+ 5  five sound pieces picked; - 1  one odd piece",
    "w  water; y  natural enemies; i  a note for the next visit",
    "n  next stop; l  leave it for later; u  undo",
    "p  read this stop again; q  leave, the walk goes on where it stopped",
)
_OUTCOMES = [text for _, text in answers.WATERINGS]


class _Left(Exception):
    """The grower leaves; everything given is kept."""


class PromptWalk:
    """A walk at a prompt: the letters are those of the screens."""

    def __init__(self, context: Context) -> None:
        self._context = context
        self._acts: dict[str, Callable[[StopView, str], None]] = {
            "g": lambda stop, words: self._clear(stop, "glance", words),
            "a": lambda stop, words: self._clear(stop, "every_look", words),
            "b": lambda stop, _: walk.clear_bed(self._context, stop.id),
            "c": lambda stop, words: self._look(stop, words, "clear"),
            "k": lambda stop, words: self._look(stop, words, "skip"),
            "s": self._seen,
            "f": self._find,
            "r": lambda stop, _: self._causes(stop),
            "+": lambda stop, words: self._pick(stop, words, sound=True),
            "-": lambda stop, words: self._pick(stop, words, sound=False),
            "w": self._water,
            "y": self._friend,
            "i": lambda stop, words: answers.note(self._context, stop.id, words or line("A line for the next visit")),
            "n": lambda stop, _: walk.leave_stop(self._context, stop.id),
            "l": lambda stop, words: walk.defer(self._context, stop.id, words or line("Why does it wait")),
            "u": lambda _, __: say(undo(self._context)),
            "p": lambda stop, _: say(*stop_lines(stop)),
            "h": lambda _, __: say(*HELP),
            "q": self._leave,
        }

    def run(self) -> None:
        """Go from stop to stop until the walk is through or left."""
        from scout.services.plan import walk_plan
        from scout.services.spoken_walk import plan_lines
        from scout.services.summary import last_summary

        if walk.open_walk(self._context) is None:
            say(*plan_lines(walk_plan(self._context)))
        begin(self._context, None, False)
        shown = ""
        while (stop := walk.current_stop(self._context)) is not None:
            if stop.id != shown:
                say("", *stop_lines(stop))
                shown = stop.id
            try:
                self._one(stop, line("What now (h: help)"))
            except BedwalkError as problem:
                say(str(problem))
            except _Left:
                say("The walk goes on where it stopped.")
                return
        say("", *summary_lines(last_summary(self._context)))

    def _one(self, stop: StopView, typed: str) -> None:
        letter, words = typed[0].lower(), typed[1:].strip()
        act = self._acts.get(letter)
        if act is None:
            raise BadInput("Give one of these letters: " + " ".join(self._acts) + "; h says what each does.")
        act(stop, words)

    def _leave(self, _: StopView, __: str) -> None:
        raise _Left

    # the looks

    def _looked(self, stop: StopView, words: str) -> int:
        """Return how many plants were looked at: typed with the letter, else all, else asked."""
        if words:
            return count("Plants looked at")(words)
        if stop.plants_n:
            return stop.plants_n
        looked = read("How many plants did you look at", count("Plants looked at"))
        if not looked:
            raise BadInput("Without a number of plants looked at nothing is kept.")
        return looked

    def _clear(self, stop: StopView, kind: str, words: str) -> None:
        looked_n = self._looked(stop, words)
        walk.clear(self._context, stop.id, kind, looked_n)
        say(f"Clear, {counted(looked_n, 'plant')} looked at.")

    def _look(self, stop: StopView, words: str, answer: str) -> None:
        look = look_named(stop, words or line("Which look"))
        looked_n = None if answer == "skip" else stop.plants_n
        answers.answer_look(self._context, stop.id, look.id, answer, looked_n)
        say(f"{look.ask} {answer}")

    def _seen(self, stop: StopView, words: str) -> None:
        look = look_named(stop, words or line("Which look"))
        rows = [one.name for one in look.symptoms]
        place = choose("What is it", [*rows, "Something else"])
        if place is None:
            return
        self._keep(stop, look.symptoms[place].id if place < len(rows) else self._named(stop, ""))

    def _find(self, stop: StopView, words: str) -> None:
        self._keep(stop, self._named(stop, words))

    def _named(self, stop: StopView, words: str) -> str:
        return confirmed(self._context, stop.crop_id, words or line("What do you see, in your own words")).id

    def _keep(self, stop: StopView, symptom: str) -> None:
        """Ask on how many, then for leaf area where it is worth judging, keep it, and rank."""
        looked_n = self._looked(stop, "")
        affected = read(f"On how many of {looked_n} plants (Enter: not counted)", count("Plants"))
        kept = noted.note_finding(self._context, stop, noted.NewFinding(symptom, True, looked_n, affected))
        if answers.wants_severity(self._context, kept.id):
            thirds = ", ".join(answers.thirds_of(self._context, kept.id)).lower()
            given = read(
                f"Leaf area with it in per cent: {thirds} (like 5,2,0; Enter: not judged)", shares("Leaf area")
            )
            if given is not None:
                answers.set_severity(self._context, kept.id, *given)
        say(finding_line(answers.finding(self._context, kept.id)))
        self._causes(stop)

    # the causes

    def _causes(self, stop: StopView) -> None:
        """Show the ranking, ask what would tell most, and offer a cause to read and do something about."""
        sized = False
        while True:
            found = show_causes(self._context, stop.id)
            if found.stop is not None:
                return
            if found.size is not None and not sized:
                sized = True
                if self._size(stop):
                    continue
            there = agree(found.questions[0].question) if found.questions else None
            if there is None:
                break
            causes.answer(self._context, stop.id, found.questions[0].symptom, there)
        place = choose("Which cause to read", [row.name for row in found.causes])
        if place is not None:
            self._page(stop, found.causes[place].id)

    def _size(self, stop: StopView) -> bool:
        """Ask how big the odd fruit is; return whether that was said."""
        question = "How big: small, half, full, ripe or a length (Enter: not said)"
        said = read(question, lambda text: give_size(self._context, stop.id, text))
        say(*([said] if said else []))
        return said is not None

    def _page(self, stop: StopView, cause: str) -> None:
        page = causes.cause_page(self._context, stop.id, cause_named(self._context, stop.crop_id, cause))
        say(*page_lines(page))
        chosen = line("Which control, by number (Enter: none)", empty=True)
        if not chosen:
            return
        row = control_named(page, chosen)
        say(row.do, *(f"Only if {text}." for text in row.only_if), *(f"! {text}" for text in row.cautions))
        if agree("Do it"):
            say(causes.take(self._context, stop.id, page.id, row.id))

    # what else a stop gives

    def _pick(self, stop: StopView, words: str, *, sound: bool) -> None:
        pieces = count("Pieces")(words) if words else 1
        answers.tally(self._context, stop.id, sound=pieces if sound else 0, odd=0 if sound else pieces)
        picks = stop_here(self._context).picks
        say(f"Picked today: {picks[0]} sound, {picks[1]} odd")

    def _water(self, stop: StopView, _: str) -> None:
        place = choose("The water here", _OUTCOMES)
        if place is not None:
            answers.log_watering(self._context, stop.id, answers.WATERINGS[place][0])

    def _friend(self, stop: StopView, words: str) -> None:
        if words:
            key, name = enemy_named(self._context, words)
        else:
            known = answers.enemies(self._context)
            place = choose("Which natural enemy", [text for _, text in known])
            if place is None:
                return
            key, name = known[place]
        answers.log_enemy(self._context, stop.id, key)
        say(f"Noted: {name}")
