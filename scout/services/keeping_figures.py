"""Epidemic figures for those who want them: how much is sick, how fast it grows, what removal buys."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.keeping_followed import Followed, plants_of, refusals_for

if TYPE_CHECKING:
    from scout.science.epidemic_fit import RateFit

REMOVED_FRACS = (0.5, 0.8)
_SEASON_D = 120


@dataclass(frozen=True)
class Incidence:
    """Plants that showed a sign among those looked at, with 95 % Wilson limits."""

    on: date
    sign: str
    affected_n: int
    looked_n: int
    low_frac: float
    high_frac: float


@dataclass(frozen=True)
class Severity:
    """Spotted leaf area by eye on a day."""

    on: date
    pct: float
    what: str


@dataclass(frozen=True)
class Figures:
    """The figures of one planting; None and empty where they cannot be worked out."""

    planting: str | None
    reached: tuple[tuple[date, float], ...]
    """Share of the marked plants' leaves that spots have reached, taken off since or not."""
    audpc: float | None
    audps: float | None
    span_d: int
    fits: "tuple[RateFit, ...]"
    """The likeliest first."""
    left_out_n: int
    """Days with nothing or all reached, which have no transform."""
    rate_per_d: float | None
    """Logistic, for doubling and for days bought."""
    doubling_d: float | None
    bought_d: tuple[tuple[float, float], ...]
    """Share removed, days bought."""
    stripped: bool
    refusals: tuple[str, ...] = ()
    incidence: tuple[Incidence, ...] = ()
    severity: tuple[Severity, ...] = ()


def figures_of(followed: Followed, incidence: Sequence[Incidence] = (), severity: Sequence[Severity] = ()) -> Figures:
    """Return the figures from counts on marked plants, with incidence and severity beside."""
    from scout.science import epidemic
    from scout.science.epidemic_fit import best_first, inside
    from scout.science.keeping_ahead import own_rate_per_d, reached_shares
    from scout.science.new_leaves import last_strip_day

    first = min((date.fromisoformat(row.on) for row in followed.rows), default=date.min)
    plants = plants_of(followed.rows, first)
    curve = reached_shares(plants)
    days, shares = [day for day, _ in curve], [share for _, share in curve]
    percent = [100.0 * share for share in shares]
    rate = own_rate_per_d(plants)
    bought = [(share, None if rate is None else epidemic.sanitation_delay_d(share, rate)) for share in REMOVED_FRACS]
    return Figures(
        followed.planting,
        tuple((first + timedelta(days=int(day)), share) for day, share in curve),
        epidemic.audpc(days, percent) if len(days) > 1 else None,
        epidemic.audps(days, percent) if len(days) > 1 else None,
        int(days[-1] - days[0]) if days else 0,
        best_first(days, shares),
        len(days) - len(inside(days, shares)),
        rate,
        None if rate is None else epidemic.doubling_time_d(rate),
        tuple((share, delay) for share, delay in bought if delay is not None),
        last_strip_day(plants) is not None,
        refusals_for(followed),
        tuple(incidence),
        tuple(severity),
    )


def figures_at(context: Context, plant: Planted) -> Figures:
    """Return the figures of one planting of the garden: marked plants, and what was counted at stops."""
    from scout.services.keeping_source import followed_in_garden
    from scout.store import findings, marked

    since = (context.today - timedelta(days=_SEASON_D)).isoformat()
    with context.read() as session:
        found = findings.findings_since(session=session, planting_id=plant.planting_id, since=since)
        measured = marked.measurements(session=session, planting_id=plant.planting_id)
    seen = [one for one in found if one.state == "seen"]
    incidence = [
        _incidence(date.fromisoformat(one.observed_at[:10]), _sign(context, one.symptom), one.affected_n, one.looked_n)
        for one in seen
        if one.affected_n is not None and one.looked_n
    ]
    severity = [
        Severity(date.fromisoformat(one.observed_at[:10]), sum(thirds) / len(thirds), _sign(context, one.symptom))
        for one in seen
        if (thirds := _thirds(one.severity_outer_pct, one.severity_middle_pct, one.severity_inner_pct))
    ]
    severity += [
        Severity(date.fromisoformat(one.observed_at[:10]), one.severity_pct, one.label)
        for one in measured
        if one.severity_pct is not None and one.observed_at >= since
    ]
    return figures_of(followed_in_garden(context, plant), incidence, sorted(severity, key=lambda one: one.on))


def _thirds(*pct: float | None) -> list[float]:
    """Return the severities of the thirds that were judged."""
    return [value for value in pct if value is not None]


def _sign(context: Context, symptom_id: str) -> str:
    symptom = context.knowledge.symptoms.get(symptom_id)
    return symptom_id if symptom is None else symptom.name


def _incidence(on: date, sign: str, affected_n: int, looked_n: int) -> Incidence:
    from scout.science.sampling import wilson_interval

    low, high = wilson_interval(affected_n, looked_n)
    return Incidence(on, sign, affected_n, looked_n, low, high)
