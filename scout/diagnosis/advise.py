"""What to do about a cause: cultural, physical, biological, and a labelled product only as the last resort."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from scout.diagnosis.pulling import Pull
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.control_file import Control, Guard
from scout.knowledge.schema import ControlKind

_ORDER: tuple[ControlKind, ...] = ("cultural", "physical", "biological", "labelled")
_WHEN = ("today", "season", "next_season")


@dataclass(frozen=True)
class Bedside:
    """What is known at the bed that a control depends on; None: not known, so it is asked."""

    crop: str | None = None
    """Controls that are not for this crop are left out; None: nothing is left out."""
    leaves_dry: bool | None = None
    heat_ahead: bool | None = None
    share_left: bool | None = None
    """True while another leaf may go: under a third of those standing 14 days ago, and enough left."""
    touch_contagious: bool | None = None
    """A virus or bacterial disease is open or suspected at this planting."""
    splash_disease: bool | None = None
    """Leaf spot, bacterial or downy trouble is open on the planting or its neighbour."""
    needs_pollinating: bool | None = None
    """False for kinds that set without pollination."""
    soil_dry: bool | None = None
    proof_seen: bool | None = None
    """The proof was seen and waiting would lose more than a wrong pull; set for each cause from `pulls`."""
    pulls: Mapping[str, Pull] = field(default_factory=dict)


@dataclass(frozen=True)
class Advice:
    """One control for one cause, as it stands at this bed now."""

    control: Control
    kind: ControlKind
    when: Literal["today", "season", "next_season"]
    refused: str | None
    """Why it must not be done now; None when nothing known speaks against it."""
    only_if: tuple[str, ...]
    """What must be checked first, since it is not known."""
    cautions: tuple[str, ...]


_GUARDS: dict[Guard, tuple[str, bool, str, str]] = {
    "dry_leaves": ("leaves_dry", True, "The leaves are wet: look, do not touch.", "the leaves feel dry"),
    "no_heat_ahead": (
        "heat_ahead",
        False,
        "Heat is coming: fruit bared now can scald.",
        "no day over 35 °C (95 °F) is forecast for the next two days",
    ),
    "share_rule": (
        "share_left",
        True,
        "Enough leaves are off already: at most a third in 14 days.",
        "under a third of the leaves has gone in the last 14 days",
    ),
    "not_contagious_by_touch": (
        "touch_contagious",
        False,
        "A virus or bacterial disease is not ruled out: a blade or hand would carry it.",
        "no plant here shows mosaic, wilt or greasy specks",
    ),
    "no_splash_disease": (
        "splash_disease",
        False,
        "Leaf spot, bacterial or downy trouble is open here: wetting leaves spreads it.",
        "no leaf spots or downy patches are on this bed or the next",
    ),
    "hand_pollinated_kind": (
        "needs_pollinating",
        True,
        "This kind sets without pollination; pollinating it helps nothing.",
        "this kind needs pollination",
    ),
    "soil_dry": ("soil_dry", True, "The soil is moist: do not water.", "the soil is dry at 5 cm"),
    "proof_seen": (
        "proof_seen",
        True,
        "Not sure enough to pull: keep it apart, touch it last, and confirm within a day.",
        "the signs that prove it are there",
    ),
}


def advise(knowledge: Knowledge, cause: Cause, bedside: Bedside) -> tuple[Advice, ...]:
    """Return the cause's controls in the order of resort: by season, then cultural before labelled."""
    pull = bedside.pulls.get(cause.id)
    bedside = replace(bedside, proof_seen=pull is not None and pull.verdict == "pull")
    fitting = (action for action in cause.do if action.fits(bedside.crop))
    found = [_advice(knowledge, action.control, action.when, bedside) for action in fitting]
    found.sort(key=lambda advice: (_WHEN.index(advice.when), _ORDER.index(advice.kind), advice.refused is not None))
    return tuple(found)


def _advice(knowledge: Knowledge, key: str, when: Literal["today", "season", "next_season"], at: Bedside) -> Advice:
    control = knowledge.controls[key]
    refused, only_if = guard(control, at)
    cautions = tuple(knowledge.cautions[c].text for c in control.cautions)
    return Advice(control, knowledge.control_kind[key], when, refused, only_if, cautions)


def guard(control: Control, at: Bedside) -> tuple[str | None, tuple[str, ...]]:
    """Return why the control is refused at the bed (or None), and what must be checked first."""
    only_if = []
    for need in control.needs:
        fact, wanted, refusal, check = _GUARDS[need]
        known = getattr(at, fact)
        if known is None:
            only_if.append(check)
        elif known is not wanted:
            return refusal, ()
    return None, tuple(only_if)
