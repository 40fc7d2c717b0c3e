"""Did it work: before against after, with plants left untreated where there are some; yes, no, or cannot tell."""

from dataclasses import dataclass
from typing import Literal

from scout.science.counts import compare_poisson_counts, fisher_exact_two_sided
from scout.science.efficacy import abbott_pct, henderson_tilton_pct
from scout.science.how_many import numbers_for_a_halving, shares_for_a_halving
from scout.science.odds_ratio import conditional_odds_ratio
from scout.science.share_difference import share_difference_interval
from scout.science.shuffled import shuffled_p_two_sided

Better = Literal["fewer", "more"]
Verdict = Literal["yes", "no", "cannot_tell"]
Reason = Literal["clear", "small", "worse", "chance", "none_before", "not_alike"]

CLEAR_P = 0.05
HALF = 0.5
"""A fall that is surely smaller than by half, or a rise surely smaller than half again, is no success. Our choice."""


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found on so many looked at; `each` where they were counted one by one."""

    found_n: int
    looked_n: int
    each: tuple[int, ...] | None = None

    @property
    def rate(self) -> float:
        """Return finds for each one looked at."""
        return self.found_n / self.looked_n


@dataclass(frozen=True, slots=True)
class Judged:
    """The answer and the figures behind it."""

    verdict: Verdict
    reason: Reason
    p: float | None
    """Chance of so great a difference, or a greater one, if nothing had changed; two-sided."""
    low: float | None
    high: float | None
    """95 % limits: of after over before (numbers; over the same ratio untreated), or of the rise in share."""
    efficacy_pct: float | None
    efficacy_by: Literal["henderson_tilton", "abbott"] | None
    wanted_n: int | None
    """How many to look at each time so that a change by half would show; None where that is not the question."""


def judge_numbers(
    before: Looked, after: Looked, better: Better, control: tuple[Looked | None, Looked] | None = None
) -> Judged:
    """Return whether a number of finds fell (or rose) beyond chance, and beyond what the untreated did.

    `control` is what was found on untreated plants before (None: not counted) and after.
    Without untreated plants the two counts are compared as Poisson counts, exactly; one by one they are shuffled too.
    Raises ValueError as the tests it uses. Source: see `counts`, `odds_ratio`, `shuffled`, `efficacy`; the bounds
    are our own choice.
    """
    if better == "fewer" and before.found_n == 0:
        return _plain("none_before")
    ratio, low, high, p = _ratio(before, after, control)
    efficacy, by = _efficacy(before, after, control) if better == "fewer" else (None, None)
    if p is None:
        return Judged("cannot_tell", "chance", None, None, None, efficacy, by, _wanted_numbers(before, better))
    p = max(p, _shuffled(before, after, control))
    verdict, reason = _read_ratio(better, ratio, low, high, p)
    if reason == "small" and not _small_when_shuffled(before, after, better):
        verdict, reason = "cannot_tell", "chance"
    wanted = _wanted_numbers(before, better) if reason == "chance" else None
    return Judged(verdict, reason, p, low, high, efficacy, by, wanted)


def _ratio(
    before: Looked, after: Looked, control: tuple[Looked | None, Looked] | None
) -> tuple[float | None, float, float | None, float | None]:
    """Return after over before (over the untreated's own), its limits, and the chance."""
    there_before, there_after = control or (None, before)
    if there_before is not None:
        null = after.looked_n * there_before.looked_n / (before.looked_n * there_after.looked_n)
        odds = conditional_odds_ratio(
            after.found_n, before.found_n, there_after.found_n, there_before.found_n, null_ratio=null
        )
        if odds is None:
            return None, 0.0, None, None
        middle = _ratio_of_ratios(before, after, there_before, there_after)
        return middle, odds.low / null, odds.high / null if odds.high is not None else None, odds.p_double_tail
    against = there_after
    plain = compare_poisson_counts(after.found_n, after.looked_n, against.found_n, against.looked_n)
    if plain is None:
        return None, 0.0, None, None
    return plain.ratio, plain.low, plain.high, plain.p_double_tail


def _ratio_of_ratios(before: Looked, after: Looked, there_before: Looked, there_after: Looked) -> float | None:
    below = before.rate * there_after.rate
    return after.rate * there_before.rate / below if below else None


def _read_ratio(
    better: Better, ratio: float | None, low: float, high: float | None, p: float
) -> tuple[Verdict, Reason]:
    fell = ratio is not None and ratio < 1.0
    if p <= CLEAR_P:
        if fell != (better == "fewer"):
            return "no", "worse"
        if not (better == "fewer" and low > HALF) and not (better == "more" and high is not None and high < 1.0 + HALF):
            return "yes", "clear"
        return "no", "small"
    small = low > HALF if better == "fewer" else high is not None and high < 1.0 + HALF
    return ("no", "small") if small else ("cannot_tell", "chance")


def _shuffled(before: Looked, after: Looked, control: tuple[Looked | None, Looked] | None) -> float:
    """Return the chance by shuffling where finds were counted one by one; 0.0 where they were not."""
    against = before if control is None else control[1]
    if after.each is None or against.each is None:
        return 0.0
    return shuffled_p_two_sided(after.each, against.each)


def _small_when_shuffled(before: Looked, after: Looked, better: Better) -> bool:
    """Return whether the change is surely small also by shuffling: twice the after against the before, for a fall."""
    if before.each is None or after.each is None or better != "fewer":
        return True
    doubled = tuple(2 * count_n for count_n in after.each)
    return shuffled_p_two_sided(doubled, before.each) <= CLEAR_P


def _efficacy(
    before: Looked, after: Looked, control: tuple[Looked | None, Looked] | None
) -> tuple[float | None, Literal["henderson_tilton", "abbott"] | None]:
    if control is None or control[1].found_n == 0:
        return None, None
    there_before, there_after = control
    if there_before is None:
        return abbott_pct((after.found_n, after.looked_n), (there_after.found_n, there_after.looked_n)), "abbott"
    if before.found_n == 0 or there_before.found_n == 0:
        return None, None
    counts = [(one.found_n, one.looked_n) for one in (before, after, there_before, there_after)]
    return henderson_tilton_pct(*counts), "henderson_tilton"


def judge_shares(
    before: Looked, after: Looked, better: Better, control: tuple[Looked | None, Looked] | None = None
) -> Judged:
    """Return whether a share fell (or rose) beyond chance; with untreated plants, whether it parted from theirs.

    Compared by Fisher's exact test; the limits are of the rise in share. Where untreated plants were counted before
    and were not alike then, nothing is told.
    Raises ValueError as the tests it uses. Source: see `counts`, `share_difference`, `efficacy`; the bounds are ours.
    """
    if better == "fewer" and before.found_n == 0:
        return _plain("none_before")
    against = before
    efficacy: tuple[float | None, Literal["abbott"] | None] = (None, None)
    if control is not None:
        against = control[1]
        if control[0] is not None and _fisher(before, control[0]) <= CLEAR_P:
            return _plain("not_alike")
        if better == "fewer" and against.found_n:
            efficacy = (
                abbott_pct((after.found_n, after.looked_n), (against.found_n, against.looked_n)),
                "abbott",
            )
    low, high = share_difference_interval(after.found_n, after.looked_n, against.found_n, against.looked_n)
    p = _fisher(after, against)
    verdict, reason = _read_share(better, after.rate - against.rate, (low, high), against.rate * HALF, p)
    wanted = _wanted_shares(before, better) if reason == "chance" else None
    return Judged(verdict, reason, p, low, high, *efficacy, wanted)


def _read_share(
    better: Better, rise: float, limits: tuple[float, float], half: float, p: float
) -> tuple[Verdict, Reason]:
    """Turn a fall over, so that better is up; then as much as half is wanted."""
    high = limits[1] if better == "more" else -limits[0]
    gain = rise if better == "more" else -rise
    if p <= CLEAR_P and gain < 0.0:
        return "no", "worse"
    if high < half:
        return "no", "small"
    return ("yes", "clear") if p <= CLEAR_P else ("cannot_tell", "chance")


def _fisher(one: Looked, other: Looked) -> float:
    return fisher_exact_two_sided(
        one.found_n, one.looked_n - one.found_n, other.found_n, other.looked_n - other.found_n
    )


def _wanted_numbers(before: Looked, better: Better) -> int | None:
    if before.found_n == 0:
        return None
    return numbers_for_a_halving(before.rate, HALF if better == "fewer" else 1.0 + HALF)


def _wanted_shares(before: Looked, better: Better) -> int | None:
    change = HALF if better == "fewer" else 1.0 + HALF
    if before.found_n == 0 or before.rate * change > 1.0:
        return None
    return shares_for_a_halving(before.rate, change)


def _plain(reason: Reason) -> Judged:
    return Judged("cannot_tell", reason, None, None, None, None, None, None)
