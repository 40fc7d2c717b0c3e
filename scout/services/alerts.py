"""The few lines on the first screen that want to be known today; each can be put away with a reason."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from scout.diagnosis.due import Reason
from scout.errors import BadInput
from scout.services.context import Context
from scout.services.dues import PlantDue, dues

MOST = 3
"""More than three are not read. Our choice."""
BACK_D = 60
"""What was put away this long ago is forgotten."""
_NAMED = 2


@dataclass(frozen=True)
class Alert:
    """One line of the first screen."""

    title: str
    """What does not change from day to day: what is put away is known again by it and by the day."""
    on: date
    text: str
    """With what is true today, and where."""
    worth: float


def alerts_of(context: Context, found: tuple[PlantDue, ...]) -> tuple[Alert, ...]:
    """Return the at most three weightiest things that are due now and were not put away."""
    away = _put_away(context)
    every = [alert for alert in _grouped(context.today, found) if (alert.title, alert.on.isoformat()) not in away]
    return tuple(sorted(every, key=lambda alert: (-alert.worth, alert.title)))[:MOST]


def alerts_today(context: Context) -> tuple[Alert, ...]:
    """Return what the first screen would show of these lines now."""
    with context.read():
        return alerts_of(context, dues(context))


def put_away(context: Context, alert: Alert, why: str) -> None:
    """Keep that an alert is not acted on, and why; it comes back when it changes, such as after the next visit.

    It is kept as a job that was never taken up, so that undo, history and reports know it.
    """
    from scout.store.tables_follow import Job

    if not why.strip():
        raise BadInput("Say in a word why it can go, such as: seen to already.")
    with context.write() as tx:
        tx.add(Job, title=alert.title, due_on=alert.on.isoformat(), state="skipped", skipped_why=why)


def _grouped(today: date, found: tuple[PlantDue, ...]) -> list[Alert]:
    """Return one alert for everything that says the same, its worth added up."""
    said: dict[str, list[tuple[PlantDue, Reason]]] = defaultdict(list)
    for one in found:
        for reason in one.due.reasons:
            if reason.alert and reason.on <= today:
                said[reason.alert].append((one, reason))
    alerts = []
    for title, group in said.items():
        worth = sum(reason.worth(today) for _, reason in group)
        text = f"{_text(title, group)} — {_few([one.plant.bed for one, _ in group])}"
        newest = max(reason.on for _, reason in group)  # a bed that joins brings back what was put away before
        alerts.append(Alert(title, newest, text, worth))
    return alerts


def _text(title: str, group: list[tuple[PlantDue, Reason]]) -> str:
    """Return what is true today; where it is not the same everywhere, on which crops something may show."""
    kind, whys = group[0][1].kind, {reason.why for _, reason in group}
    if kind in ("job", "pest"):
        return title
    if len(whys) > 1:
        return f"{title}: spots may show on {_few([one.plant.crop.name.lower() for one, _ in group])}"
    why = whys.pop()
    return why[:1].upper() + why[1:]


def _few(names: list[str]) -> str:
    """Return two names at most, else the first and how many more."""
    names = list(dict.fromkeys(names))
    return ", ".join(names) if len(names) <= _NAMED else f"{names[0]} and {len(names) - 1} more"


def _put_away(context: Context) -> set[tuple[str, str]]:
    from scout.store import jobs

    since = (context.today - timedelta(days=BACK_D)).isoformat()
    with context.read() as session:
        return set(jobs.never_taken_up(session=session, garden_id=str(context.garden_id), since=since))
