"""What the page of a stop shows: the last visit first, then the looks, and the keys most wanted now."""

from scout.plain import counted
from scout.services.views import FindingView, LookView, StopView
from scout.services.wording import plants_text
from scout.tui.page import Line, View

_LOOK_KEYS = ("seen", "clear", "skip")
_OTHER_KEYS = (
    *("find", "causes", "later", "count_plants", "pick_sound", "pick_odd", "which", "note", "photo"),
    *("marked", "watering", "enemies", "pest_count", "hold", "jobs", "to_bed", "end_walk", "back"),
)
_MARK = {"open": "☐", "clear": "✓", "seen": "●", "skip": "–"}


def stop_shown(stop: StopView, looked_n: int | None) -> View:
    """Return the page of a stop at which `looked_n` plants are looked at; the first open look is highlighted."""
    variety = f" · {stop.variety}" if stop.variety else ""
    head = f"{stop.number}/{stop.total} {stop.bed} · {stop.crop}{variety}"
    rows = [f"{_MARK[look.state]} {look.ask}" for look in stop.looks]
    return View(head, _lines(stop, looked_n), rows, _actions(stop), _first_open(stop.looks))


def _lines(stop: StopView, looked_n: int | None) -> list[Line]:
    lines = [Line(f"! {hold}", "bold reverse") for hold in stop.holds]
    lines += [Line(f"Last time: {text}", "bold") for text in stop.last_visit[:1]]
    lines += [Line(f"  {text}") for text in stop.last_visit[1:]]
    lines += [Line(f"Open problem: {text}") for text in stop.troubles]
    lines += [Line(f"Going on {stop.going_on}")] if stop.going_on else []
    lines.append(Line(f"Why: {stop.why} · looking at {looked_n or '?'} plants"))
    if stop.marked_due:
        lines.append(Line(f"{counted(stop.marked_due, 'marked plant')} to measure (v)", "bold"))
    lines += [Line(f"{job} (j)", "bold") for job in stop.jobs]
    if any(stop.picks):
        lines.append(Line(f"Picked: {stop.picks[0]} sound, {stop.picks[1]} odd"))
        lines += [Line(text) for text in stop.pick_lines]
    lines += [Line(f"● {_finding_text(f)}", "bold") for f in stop.findings if f.seen]
    return lines


def _finding_text(finding: FindingView) -> str:
    count = plants_text(finding.affected_n, finding.looked_n)
    which = f" ({finding.which_plants})" if finding.which_plants else ""
    return f"{finding.name}{count}{which}"


def _first_open(looks: tuple[LookView, ...]) -> int:
    return next((n for n, look in enumerate(looks) if look.state == "open"), max(0, len(looks) - 1))


def _actions(stop: StopView) -> tuple[str, ...]:
    """Return the keys, most wanted first: before anything is answered the clear keys, afterwards the next bed."""
    seen = any(look.state == "seen" for look in stop.looks) or any(found.seen for found in stop.findings)
    all_looks = ("all_looks",) if stop.may_clear_all and not seen else ()
    due = ("marked",) if stop.marked_due else ()
    rest = tuple(name for name in _OTHER_KEYS if name not in due)
    if stop.findings or any(look.state != "open" for look in stop.looks):
        return ("next_stop", *due, *all_looks, *_LOOK_KEYS, *rest)
    bed = ("bed_clear",) if stop.may_clear_bed else ()
    return ("glance", *due, *all_looks, *bed, *_LOOK_KEYS, "next_stop", *rest)
