"""A walk in plain lines, for a terminal without a screen, a script or a screen reader."""

from scout.errors import NotFound
from scout.plain import counted
from scout.services import walk
from scout.services.context import Context
from scout.services.plan import WASH
from scout.services.views import CausePage, CausesView, FindingView, StopView, WalkPlan, WalkSummary
from scout.services.wording import plants_text

_SIZE = "{} Say it with: bedwalk walk size half"
_STATES = {"open": "", "clear": " (clear)", "seen": " (seen)", "skip": " (not looked at)"}


def stop_here(context: Context) -> StopView:
    """Return the stop where the walk stands; NotFound says how to begin a walk."""
    stop = walk.current_stop(context)
    if stop is None:
        raise NotFound("No walk is open; begin one with: bedwalk walk start.")
    return stop


def plan_lines(plan: WalkPlan) -> list[str]:
    """Return a plan: what to know first, the stops in order with the wash between, what waits, dawn and dark."""
    lines = [text for text in plan.lines if text != WASH or plan.wash_before is None]
    for number, stop in enumerate(plan.stops, 1):
        if number - 1 == plan.wash_before:
            wait = f" Wait {plan.wait_min} minutes for dry leaves." if plan.wait_min else ""
            lines.append(f"-- {WASH}{wait}")
        lines.append(f"{number}. {stop.at} {stop.bed}, {stop.crop}: {stop.why} ({stop.minutes:g} min)")
    lines += [f"Later: {stop.bed}, {stop.crop}. {stop.deferred_why}" for stop in plan.deferred]
    lines += hour_list_lines(plan)
    if not plan.stops:
        why = "Nothing fits now" if plan.deferred else "Nothing is due; --all plans a walk over everything"
        return [*lines, f"{why}."]
    return [*lines, f"{plan.head}."]


def hour_list_lines(plan: WalkPlan) -> list[str]:
    """Return the dawn list and the after-dark list as lines; nothing of an empty one."""
    lines = []
    for name, found in (("At dawn", plan.dawn), ("After dark, with a torch", plan.dark)):
        lines += [f"{name}: {one.bed}, {one.crop}. {one.ask} ({one.why})" for one in found]
    return lines


def stop_lines(stop: StopView) -> list[str]:
    """Return a stop: last visit first, then holds and open problems, then the looks with their numbers."""
    variety = f" {stop.variety}" if stop.variety else ""
    count = counted(stop.plants_n, "plant") if stop.plants_n is not None else "not counted"
    lines = [f"Stop {stop.number} of {stop.total}: {stop.bed}, {stop.crop}{variety}, {count}"]
    lines += [f"! {hold}" for hold in stop.holds]
    lines += [f"{'Last time: ' if not n else '  '}{text}" for n, text in enumerate(stop.last_visit)]
    lines += [f"Open problem: {text}" for text in stop.troubles]
    lines += [f"Going on {stop.going_on}"] if stop.going_on else []
    lines.append(f"Why: {stop.why}")
    if stop.marked_due:
        lines.append(f"Marked plants to measure: {stop.marked_due}")
    lines += stop.jobs
    if any(stop.picks):
        lines.append(f"Picked today: {stop.picks[0]} sound, {stop.picks[1]} odd")
        lines += stop.pick_lines
    lines += [finding_line(found) for found in stop.findings]
    lines += [f"{number}. {look.ask}{_STATES[look.state]}" for number, look in enumerate(stop.looks, 1)]
    return lines


def finding_line(found: FindingView) -> str:
    """Return a finding as one line, with what was counted."""
    count = plants_text(found.affected_n, found.looked_n, " plants")
    shares = "/".join("–" if share is None else f"{share:g}" for share in found.severity_pct)
    area = f", leaf area {shares} %" if any(share is not None for share in found.severity_pct) else ""
    which = f" ({found.which_plants})" if found.which_plants else ""
    if not found.seen:
        looked = f", {found.looked_n} looked at" if found.looked_n is not None else ""
        return f"Not seen: {found.name}{looked}"
    return f"Seen: {found.name}{count}{area}{which}"


def causes_lines(found: CausesView) -> list[str]:
    """Return the ranking: the answer first, then what to rule out, the causes, and what would tell most.

    A warning stands alone: nothing else is read before it.
    """
    if found.stop is not None:
        title, warning = found.stop
        return [f"! {title}", *(f"! {text}" for text in warning)]
    lines = [found.headline, *found.disease, *([_SIZE.format(found.size)] if found.size else []), *found.course]
    lines += found.cannot_tell
    lines += [f"! Rule out first: {text}" for text in found.rule_out]
    lines += found.pull
    for number, cause in enumerate(found.causes, 1):
        lines.append(f"{number}. {cause.name} ({cause.id}) — {cause.chance}")
        lines += [f"   for: {text}" for text in cause.because[:3]]
        lines += [f"   against: {text}" for text in cause.against[:2]]
    lines += [*found.together, *found.unexplained]
    if found.questions:
        lines.append("What would tell most:")
        lines += [f"  {q.question} ({q.effort}; {q.symptom})" for q in found.questions]
    return lines


def page_lines(page: CausePage) -> list[str]:
    """Return a cause like a field guide page, its controls numbered in the order of resort."""
    lines = [f"{page.name} ({page.kind})", *([_SIZE.format(page.size)] if page.size else []), *page.lines, "Controls"]
    for number, control in enumerate(page.controls, 1):
        refused = f" Not now: {control.refused}" if control.refused else ""
        lines.append(f"{number}. {control.when}: {control.name} ({control.id}).{refused}")
    return lines


def summary_lines(summary: WalkSummary) -> list[str]:
    """Return a finished walk in a few lines."""
    return [f"{summary.head}.", *summary.lines]


def where_lines(context: Context) -> list[str]:
    """Return the stop where the walk stands now, or the summing up when it is through."""
    from scout.services.summary import last_summary

    stop = walk.current_stop(context)
    return stop_lines(stop) if stop is not None else summary_lines(last_summary(context))
