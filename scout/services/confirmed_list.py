"""What this garden has confirmed, as a list: what each answer did to the odds, and how it is taken back."""

from dataclasses import dataclass

from scout.errors import NotFound, Refused
from scout.plain import lower_first
from scout.services.context import Context
from scout.services.own_history import COUNTS, Sign, own_counts

CHOICES: tuple[tuple[Sign, bool, str], ...] = (
    ("independent", True, "Yes: a sign of its own (lens, string test, dawn look)"),
    ("clinic", True, "Yes: a plant clinic says so"),
    ("later_course", True, "Yes: the later course showed it"),
    ("clinic", False, "No: a plant clinic says otherwise"),
    ("independent", False, "No: a sign of its own rules it out"),
    ("later_course", False, "No: the later course spoke against it"),
)
"""What may be answered to "was it this?": sign, whether it was, and the words. Agreement is not among them."""
ASKED = "Say what tells you. That the list here says so is no proof and counts for nothing."
_SIGNS = {"independent": "a sign of its own", "clinic": "a clinic", "later_course": "the later course"}


@dataclass(frozen=True)
class ConfirmedRow:
    """One answer that counts."""

    id: str
    on: str
    crop: str
    cause: str
    text: str


@dataclass(frozen=True)
class OddsRow:
    """What the answers of a crop did to one cause: a beta distribution, told by its counts and its mean."""

    crop: str
    cause: str
    was_n: int
    of_n: int
    usual: float
    """Chance before anything is seen, as published figures have it, 0-1."""
    here: float
    """The same in this garden."""

    @property
    def text(self) -> str:
        """Return the row in one line."""
        return f"{self.was_n} of {self.of_n}; odds at first sight {_pct(self.usual)}, here {_pct(self.here)}"


def confirm_at(context: Context, stop_id: str, cause_id: str, choice: int) -> str:
    """Keep what proved or ruled out a cause, by its place among the choices; return what it did to the odds."""
    from scout.services.causes import plant_at
    from scout.services.own_history import confirm

    plant = plant_at(context, stop_id)
    sign, was, _ = CHOICES[choice]
    confirm(context, plant, cause_id, sign, was=was)
    row = next(row for row in odds_rows(context) if (row.crop, row.cause) == (plant.crop.id, cause_id))
    return f"Kept. {context.knowledge.causes[cause_id].name} here: {row.text}. u takes it back."


def confirmed_rows(context: Context) -> tuple[ConfirmedRow, ...]:
    """Return every answer that counts, newest first."""
    from scout.store import jobs, plantings

    garden = str(context.garden_id)
    with context.read() as session:
        outcomes = jobs.outcomes(session=session, garden_id=garden)
        troubles = {one.id: one for one in jobs.troubles(session=session, garden_id=garden)}
        crops = {one.id: one.crop for one in plantings.plantings(session=session, garden_id=garden)}
    rows = []
    for one in reversed(outcomes):
        trouble = troubles.get(one.trouble_id or "")
        if trouble is None or trouble.cause is None or one.sign not in COUNTS or one.verdict == "cannot_tell":
            continue
        crop = crops.get(trouble.planting_id, "")
        was = "was" if one.verdict == "yes" else "was not"
        text = f"{_crop_name(context, crop)} {was} {_cause_name(context, trouble.cause)}, by {_SIGNS[one.sign]}"
        rows.append(ConfirmedRow(one.id, one.observed_at[:10], crop, trouble.cause, text))
    return tuple(rows)


def odds_rows(context: Context) -> tuple[OddsRow, ...]:
    """Return what the answers did to the odds, crop by crop: the causes that were asked for by name."""
    from scout.diagnosis.evidence import Evidence
    from scout.diagnosis.model import build_model

    rows = []
    for crop in context.knowledge.crops:
        counts = own_counts(context, crop)
        if not counts:
            continue
        models = [build_model(context.knowledge, Evidence(crop, own_counts=given)) for given in ({}, counts)]
        usual, here = ({c.id: float(p) for c, p in zip(m.causes, m.prior(), strict=True)} for m in models)
        known = sorted(cause for cause in counts if cause in usual)
        rows += [OddsRow(crop, cause, *counts[cause], usual[cause], here[cause]) for cause in known]
    return tuple(rows)


def take_back(context: Context, outcome_id: str) -> None:
    """Take one answer out of the count; it stays in the record, marked, and undo brings it back."""
    rows = [one for one in confirmed_rows(context) if one.id == outcome_id]
    if not rows:
        raise NotFound("This answer counts no more.")
    _take_back(context, rows)


def reset(context: Context, crop: str | None = None, cause: str | None = None) -> int:
    """Take every answer out of the count, of a crop or of a cause where one is named; return how many."""
    rows = [
        one for one in confirmed_rows(context) if crop in (None, one.crop) and (cause is None or one.cause == cause)
    ]
    if not rows:
        raise Refused("Nothing is confirmed there, so there is nothing to take back.")
    _take_back(context, rows)
    return len(rows)


def _take_back(context: Context, rows: list[ConfirmedRow]) -> None:
    from scout.store.tables_follow import Outcome

    note = f"taken back on {context.today.isoformat()}"
    with context.write() as tx:
        for row in rows:
            tx.update(Outcome, row.id, verdict="cannot_tell", note=note)


def _crop_name(context: Context, crop: str) -> str:
    known = context.knowledge.crops.get(crop)
    return known.name if known else crop


def _cause_name(context: Context, cause: str) -> str:
    known = context.knowledge.causes.get(cause)
    return lower_first(known.name) if known else cause


def _pct(chance: float) -> str:
    return "under 1 %" if chance < 0.01 else f"{chance * 100:.0f} %"
