"""Clues, chances and sources in a grower's words."""

from datetime import date

from scout.diagnosis.pulling import Pull
from scout.diagnosis.reasons import Reason
from scout.knowledge.base import Knowledge
from scout.plain import day_text, lower_first

_STAGES = {
    "seedling": "seedlings",
    "leafy": "before flowering",
    "flowering": "in flower",
    "fruiting": "fruiting",
    "finishing": "at the end of its life",
}


def reason_text(knowledge: Knowledge, reason: Reason) -> str:
    """Return one clue as a short phrase: what was seen, not seen, answered or measured."""
    if reason.kind in ("seen", "excludes"):
        return knowledge.symptoms[reason.subject].name
    if reason.kind == "not_seen":
        return f"not seen: {lower_first(knowledge.symptoms[reason.subject].name)}"
    if reason.kind == "stage":
        return f"plants are {_STAGES[reason.subject]}"
    if reason.kind == "season":
        return knowledge.seasons[reason.subject].name
    if reason.kind == "earlier":
        return f"what was seen here since {day_text(date.fromisoformat(reason.subject))}"
    if reason.kind == "response":
        did = "helped" if reason.holds else "did not help"
        return f"{lower_first(knowledge.controls[reason.subject].name)} {did}"
    table = knowledge.circumstances if reason.kind == "circumstance" else knowledge.conditions
    name = table[reason.subject].name
    return name if reason.holds else f"not so: {lower_first(name)}"


def pull_lines(knowledge: Knowledge, pull: Pull) -> tuple[str, ...]:
    """Return whether to pull, with the signs that prove the cause: read before anything is pulled."""
    seen = _either(knowledge, pull.proof_seen)
    if pull.verdict == "pull":
        proof = f"Proof seen here: {seen}." if seen else "No single sign proves it; all signs together do."
        return (proof, "Pull it: waiting would cost more than a pull in vain.")
    held = "Keep it apart, touch it last and confirm within a day; do not pull yet."
    if not pull.proof_seen and pull.proof:
        return (f"Not proven here. Proof is: {_either(knowledge, pull.proof)}.", held)
    vain = min(99, max(1, round(100 * pull.in_vain)))
    proof = f"Seen here: {seen}, which can prove it." if seen else "No single sign proves it."
    return (f"{proof} But {vain} % that a pull would be in vain.", held)


def _either(knowledge: Knowledge, signs: tuple[str, ...]) -> str:
    return " or ".join(lower_first(knowledge.symptoms[sign].name) for sign in signs)


def chance_word(probability: float) -> str:
    """Return a chance in words. The bounds are our choice."""
    for least, word in ((0.85, "very likely"), (0.6, "likely"), (0.3, "possible"), (0.1, "less likely")):
        if probability >= least:
            return word
    return "unlikely"


def source_text(knowledge: Knowledge, key: str) -> str:
    """Return a source as a grower reads it, with a plain word where it rests on memory or practice."""
    source = knowledge.sources[key]
    year = f", {source.year}" if source.year else ""
    note = {"looked_up": f" (read {source.checked_on})", "memory": " (from memory, not checked)", "practice": ""}
    return f"{source.title}, {source.by}{year}{note[source.basis]}"


def kind_text(kind: str) -> str:
    """Return what sort of cause it is, in two words at most."""
    words = {"oomycete": "water mould", "viral": "virus", "fungal": "fungus", "normal": "normal", "sun": "sun"}
    return words.get(kind, kind)


def plants_text(affected_n: int | None, looked_n: int | None, noun: str = "") -> str:
    """Return ", 3 of 8", or ", 3" where nobody said of how many; nothing where nothing was counted."""
    if affected_n is None:
        return ""
    return f", {affected_n}{f' of {looked_n}' if looked_n is not None else ''}{noun}"
