"""What the screens and the line mode are given: plain frozen values, never a row of the store."""

from dataclasses import dataclass
from typing import Literal

from scout.diagnosis.due import Pass
from scout.plain import counted

LookState = Literal["open", "clear", "seen", "skip"]


@dataclass(frozen=True)
class SymptomView:
    """A symptom to choose."""

    id: str
    name: str
    question: str
    how: str | None


@dataclass(frozen=True)
class LookView:
    """One look of a stop and what it gave."""

    id: str
    place: str
    """Where on the plant: kept with what is found there."""
    ask: str
    why: str
    state: LookState
    symptoms: tuple[SymptomView, ...]


@dataclass(frozen=True)
class FindingView:
    """One finding of a stop."""

    id: str
    symptom: str
    name: str
    seen: bool
    looked_n: int | None
    affected_n: int | None
    severity_pct: tuple[float | None, float | None, float | None]
    which_plants: str | None
    note: str


@dataclass(frozen=True)
class Asking:
    """The question on screen: a walk resumes at it after quit, crash or kill."""

    what: Literal["looks", "symptom", "affected", "severity", "causes"]
    subject: str
    """Look id, finding id, or empty."""

    @property
    def text(self) -> str:
        """Return it as kept in the store."""
        return f"{self.what}:{self.subject}"


AT_LOOKS = Asking("looks", "")
"""The walk stands at this stop, and no question is on screen."""


@dataclass(frozen=True)
class StopView:
    """Everything one stop shows."""

    id: str
    walk_id: str
    planting_id: str
    number: int
    total: int
    bed: str
    bed_kind: str
    crop_id: str
    crop: str
    variety: str | None
    plants_n: int | None
    group: Pass
    why: str
    last_visit: tuple[str, ...]
    """Last visit's note and findings: read before anything is asked."""
    holds: tuple[str, ...]
    troubles: tuple[str, ...]
    looks: tuple[LookView, ...]
    findings: tuple[FindingView, ...]
    picks: tuple[int, int]
    """Sound and odd pieces tallied at this stop."""
    may_clear_all: bool
    """False where a problem is open or a marked plant is due."""
    may_clear_bed: bool
    """True where the bed holds more open stops and all of them may be cleared."""
    marked_due: int
    asking: Asking | None
    state: str
    pick_lines: tuple[str, ...] = ()
    """What today's pick and those before add up to; empty until something is picked."""
    going_on: str | None = None
    """Since when signs are seen here, and on how many plants, where no problem was named yet."""
    jobs: tuple[str, ...] = ()
    """What is to be done here, or looked at again, by today."""
    looked_n: int | None = None
    """On how many plants the newest look was made; before any, how many stand here."""


@dataclass(frozen=True)
class PlannedStop:
    """One stop of a plan."""

    planting_id: str
    bed_id: str
    bed: str
    crop: str
    group: Pass
    why: str
    minutes: float
    deferred_why: str | None
    """Why it is left out and when it will do; None: in this walk."""
    at: str = ""
    """Clock time at which it is likely reached, such as "9:40"."""
    must: bool = False
    """It cannot wait for a cooler day."""


@dataclass(frozen=True)
class HourLine:
    """One look that waits for dawn or for dark."""

    bed: str
    crop: str
    ask: str
    why: str


@dataclass(frozen=True)
class WalkPlan:
    """The walk before it begins."""

    stops: tuple[PlannedStop, ...]
    """In walking order: clean beds first, then wash, then the sick ones."""
    deferred: tuple[PlannedStop, ...]
    minutes: float
    lines: tuple[str, ...]
    """What to know before setting out: heat, wet leaves, where to wash hands."""
    wash_before: int | None = None
    """Index of the stop before which hands are washed; None: nothing to wash between."""
    wait_min: int = 0
    """Minutes to wait for dry leaves before the sick beds."""
    dawn: tuple[HourLine, ...] = ()
    """Of the whole garden; filled in where the plan is asked for by itself."""
    dark: tuple[HourLine, ...] = ()

    @property
    def head(self) -> str:
        """Return how much there is to walk, in one line."""
        return f"{counted(len(self.stops), 'stop')}, about {self.minutes:.0f} minutes"


@dataclass(frozen=True)
class WalkSummary:
    """A finished walk in five lines."""

    stops_n: int
    clear_n: int
    findings_n: int
    lines: tuple[str, ...]

    @property
    def head(self) -> str:
        """Return what was done, in one line."""
        stops, findings = counted(self.stops_n, "stop"), counted(self.findings_n, "finding")
        return f"Walk done: {stops}, {self.clear_n} clear, {findings}"


@dataclass(frozen=True)
class CauseRow:
    """One likely cause as a row."""

    id: str
    name: str
    chance: str
    """In words and per cent."""
    because: tuple[str, ...]
    against: tuple[str, ...]


@dataclass(frozen=True)
class QuestionView:
    """One observation that would tell most, answered with one key."""

    symptom: str
    question: str
    how: str | None
    effort: str
    splits: tuple[str, ...]


@dataclass(frozen=True)
class CausesView:
    """What a tired person understands in five seconds, then the rest."""

    headline: str
    stop: tuple[str, tuple[str, ...]] | None
    """A warning that comes before anything else: title and lines."""
    cannot_tell: tuple[str, ...]
    rule_out: tuple[str, ...]
    causes: tuple[CauseRow, ...]
    together: tuple[str, ...]
    unexplained: tuple[str, ...]
    questions: tuple[QuestionView, ...]
    would_change: tuple[str, ...]
    """What a yes or a no to each question would make of the answer."""
    course: tuple[str, ...] = ()
    """Since when the problem is open, on how many plants, and what tells of it."""
    pull: tuple[str, ...] = ()
    """Pull or keep apart, for the leading cause where plants are pulled for it, with the signs that prove it."""
    disease: tuple[str, ...] = ()
    """Said where nothing living shows: no sign of disease, and where nobody looked."""
    size: str | None = None
    """Asked where the size of the odd fruit would move the days that made it."""


@dataclass(frozen=True)
class ControlRow:
    """One thing to do about a cause."""

    id: str
    name: str
    kind: str
    when: str
    do: str
    refused: str | None
    only_if: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class CausePage:
    """One cause like a field guide page: how to confirm, what to do, what not."""

    id: str
    name: str
    kind: str
    lines: tuple[str, ...]
    controls: tuple[ControlRow, ...]
    size: str | None = None
    """Asked where the size of the odd fruit would move the days that made it."""
