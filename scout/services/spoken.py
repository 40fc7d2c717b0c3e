"""An answer in lines: what a tired person understands in five seconds first, then the rest."""

from datetime import date

from scout.plain import days_text, lower_first
from scout.services import backdating
from scout.services.answer_shape import Answer, AskOut, CauseOut
from scout.services.wording import chance_word

SHOWN = 5
NOT_LIVING = 0.2
"""Below this chance that something living did it, no sign of disease is said. Our choice."""
_WORDS = ((0.85, "Very likely"), (0.6, "Most likely"), (0.3, "Perhaps"))


def headline(answer: Answer) -> str:
    """Return the answer in one sentence."""
    if answer.stop is not None:
        return answer.stop.title
    if answer.cannot_tell is not None:
        return f"Cannot tell yet. {answer.cannot_tell.say}"
    if not answer.causes:
        return "Nothing is known of this crop."
    first = answer.causes[0]
    word = next((word for least, word in _WORDS if first.probability >= least), "Nothing stands out; first of all")
    days = backdating.dates_text([date.fromisoformat(day) for day in first.made_on])
    return f"{word} {lower_first(first.name)}{f', {days}' if days else ''}."


def cause_line(cause: CauseOut) -> str:
    """Return one cause with its chance in words and per cent."""
    return f"{cause.name} — {chance_text(cause.probability)}"


def chance_text(probability: float) -> str:
    """Return a chance in words and per cent, never 0 or 100."""
    shown = min(99, max(1, round(probability * 100)))
    sign = "<" if probability < 0.01 else ""
    return f"{chance_word(probability)}, {sign}{shown} %"


def worth_showing(answer: Answer) -> list[CauseOut]:
    """Return the causes to show: those that explain something seen, now or earlier; all where nothing was seen."""
    explaining = [c for c in answer.causes if any(clue.kind in ("seen", "earlier") for clue in c.because)]
    return explaining or answer.causes


def questions_of(answer: Answer) -> list[AskOut]:
    """Return the three questions worth most, about signs and about the bed together."""
    return sorted([*answer.ask_next, *answer.ask_patterns], key=lambda ask: (not ask.first, -ask.worth))[:3]


def would_change_lines(answer: Answer) -> list[str]:
    """Return what a yes or a no to each of the next questions would make of the answer."""
    names = {cause.id: cause.name for cause in answer.causes}
    lines = []
    for ask in questions_of(answer):
        yes, no = ask.if_seen, ask.if_not
        lines.append(ask.question)
        lines.append(f"  yes: {names[yes.cause]}, {chance_text(yes.probability)}")
        lines.append(f"  no: {names[no.cause]}, {chance_text(no.probability)}")
    return lines


def answer_lines(answer: Answer) -> list[str]:
    """Return the whole answer as lines for a plain terminal or a screen reader."""
    lines = [headline(answer)]
    if answer.cannot_tell is None and answer.called_sick is not None and answer.called_sick < NOT_LIVING:
        lines.append("No sign of disease in what was reported; what was not looked at is not cleared.")
    if answer.stop is not None:
        return lines + answer.stop.lines
    if answer.cannot_tell is not None:
        lines += cannot_tell_lines(answer)
    lines += answer.causes[0].pull.say if answer.causes and answer.causes[0].pull else []
    lines += [f"Rule out first: {r.name}. {r.fast_check or ''}" for r in answer.rule_out_first]
    lines += [f"Nothing known explains: {s}" for s in answer.unexplained]
    lines.append("")
    for cause in worth_showing(answer)[:SHOWN]:
        lines += [cause_line(cause), *_reasons(cause)]
    if answer.causes and answer.cannot_tell is None:
        lines += ["", "What to do", *_acts(answer.causes[0])]
    if answer.ask_next:
        lines += ["", "What would tell most", *(f"  {ask.question} ({ask.effort})" for ask in questions_of(answer))]
    return lines


def cannot_tell_lines(answer: Answer) -> list[str]:
    """Return what to do while nobody can tell: what to look for, when, and where to ask."""
    cannot = answer.cannot_tell
    if cannot is None:
        return []
    look_for = [lower_first(name) for name in cannot.look_for_names]
    lines = [f"First of all: {ask.question}" for ask in questions_of(answer) if ask.first]
    lines += [f"Look for: {', '.join(look_for)}."] if look_for else []
    lines.append(cannot.holding)
    if cannot.same_action:
        lines.append("What to do now is the same either way.")
    return [*lines, cannot.clinic]


def _reasons(cause: CauseOut) -> list[str]:
    return [f"  for: {c.text}" for c in cause.because[:4]] + [f"  against: {c.text}" for c in cause.against[:3]]


def _acts(cause: CauseOut) -> list[str]:
    lines = []
    for act in cause.act:
        condition = f" Only if {' and '.join(act.only_if)}." if act.only_if else ""
        lines.append(f"  {act.when.replace('_', ' ')}: {act.name}. {act.do}{condition}")
        lines += [f"    ! {caution}" for caution in act.cautions]
    lines += [f"  Do not: {text}" for text in cause.dont]
    return [*lines, f"  Look again in {days_text(cause.look_again_d)}."]
