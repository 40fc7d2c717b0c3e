"""Epidemic figures as lines for a reader who knows the words, and as JSON."""

from dataclasses import asdict
from math import exp
from typing import Any

from scout.plain import short_day
from scout.services.keeping_figures import Figures
from scout.services.keeping_words import days_bought_words

HEAD = "Epidemic figures"
_NAMES = {"logistic": "logistic", "gompertz": "Gompertz", "monomolecular": "monomolecular"}
_SHOWN = 6
_NO_PROGRESS = "Leaves were stripped here, so a falling area of spots shows nothing."


def figure_lines(found: Figures) -> list[str]:
    """Return every figure that can be worked out, with what it means and what it does not."""
    lines = [*found.refusals, *_curve_lines(found), *_rate_lines(found), *_bought_lines(found)]
    return [*lines, *_incidence_lines(found), *_severity_lines(found)]


def _curve_lines(found: Figures) -> list[str]:
    if not found.reached:
        return ["No spot was measured on a marked plant yet, so there is no curve."]
    points = ", ".join(f"{short_day(on)} {100 * share:.0f} %" for on, share in found.reached[-_SHOWN:])
    lines = [f"Share of the leaves that spots have reached, taken off since or not: {points}."]
    if found.audpc is not None and found.audps is not None:
        lines.append(
            f"Area under that curve (AUDPC): {found.audpc:.0f} %-days in {found.span_d} days, "
            f"{found.audpc / found.span_d:.0f} % on an average day. As stairs (AUDPS): {found.audps:.0f} %-days."
        )
    return lines


def _rate_lines(found: Figures) -> list[str]:
    if not found.fits:
        return ["An infection rate with limits needs three visits with a share between nothing and all."]
    best, *others = found.fits
    lines = [
        f"Apparent infection rate: {best.rate_per_d:.3f} a day ({best.low_per_d:.3f} to {best.high_per_d:.3f}, 95 %), "
        f"{_NAMES[best.model]}, the likeliest of three curves on {best.looks_n} visits."
    ]
    told = "; ".join(
        f"{_NAMES[fit.model]} {fit.rate_per_d:.3f} ({fit.low_per_d:.3f} to {fit.high_per_d:.3f}), "
        f"{_times(best.log_likelihood - fit.log_likelihood)}"
        for fit in others
    )
    lines.append(f"The others: {told}. Visits to one plant hang together: the limits are rather too narrow.")
    if found.left_out_n:
        lines.append(f"Left out: {found.left_out_n} visits with all leaves reached; no curve takes them.")
    return lines


def _times(gap: float) -> str:
    """Return how many times less likely, from the gap of two log likelihoods."""
    if gap < 0.7:
        return "about as likely"
    times = exp(min(gap, 20.0))
    return "over 1000 times less likely" if times > 1000 else f"{times:.0f} times less likely"


def _bought_lines(found: Figures) -> list[str]:
    if found.rate_per_d is None:
        return []
    if found.doubling_d is None:
        return ["The share reached is not growing: no doubling time, and nothing to buy by stripping."]
    bought = ", ".join(f"{100 * share:.0f} % of it {days_bought_words(days)}" for share, days in found.bought_d)
    return [
        f"Doubling time while little is spotted: {found.doubling_d:.1f} days (logistic rate {found.rate_per_d:.3f}).",
        f"Taking off what is spotted buys, at that rate: {bought}. It delays, it never ends it.",
    ]


def _incidence_lines(found: Figures) -> list[str]:
    return [
        f"{short_day(one.on)}, {one.sign}: on {one.affected_n} of {one.looked_n} plants, "
        f"{100 * one.affected_n / one.looked_n:.0f} % ({100 * one.low_frac:.0f} to {100 * one.high_frac:.0f}, 95 %)."
        for one in found.incidence[-_SHOWN:]
    ]


def _severity_lines(found: Figures) -> list[str]:
    lines = [
        f"{short_day(one.on)}, {one.what}: {one.pct:.0f} % of the leaf area spotted."
        for one in found.severity[-_SHOWN:]
    ]
    return [*lines, _NO_PROGRESS] if lines and found.stripped else lines


def as_json(found: Figures) -> dict[str, Any]:
    """Return the figures for a script; days as ISO text."""
    return {
        "planting": found.planting,
        "reached": [{"on": on.isoformat(), "share": share} for on, share in found.reached],
        "audpc_pct_days": found.audpc,
        "audps_pct_days": found.audps,
        "span_days": found.span_d,
        "rates": [asdict(fit) for fit in found.fits],
        "best": found.fits[0].model if found.fits else None,
        "left_out": found.left_out_n,
        "logistic_rate_per_day": found.rate_per_d,
        "doubling_days": found.doubling_d,
        "days_bought": [{"removed": share, "days": days} for share, days in found.bought_d],
        "incidence": [asdict(one) | {"on": one.on.isoformat()} for one in found.incidence],
        "severity": [asdict(one) | {"on": one.on.isoformat()} for one in found.severity],
        "stripped": found.stripped,
        "refusals": list(found.refusals),
        "lines": figure_lines(found),
    }
