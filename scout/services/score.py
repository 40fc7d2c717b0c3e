"""How good the knowledge is: cases answered, ranks counted, chances held against what was right."""

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.pattern import share_circumstances
from scout.diagnosis.rank import Ranking, rank
from scout.intake.knowledge_case import KnowledgeCase
from scout.knowledge.base import Knowledge

if TYPE_CHECKING:
    from scout.science.calibration import Bin

Half = Literal["tuning", "unseen", "all"]
CALLED_SICK = 0.5
"""A plant is called sick when a living cause is this likely to have made something that was seen."""
FIRST_FEW = 5
RESAMPLES = 1000
_SEED = 20261125


@dataclass(frozen=True)
class Share:
    """How many of how many, and the share weighed by how common the right causes are."""

    hits_n: int
    of_n: int
    weighed_frac: float | None

    @property
    def frac(self) -> float | None:
        """Return the plain share; None of none."""
        return self.hits_n / self.of_n if self.of_n else None


@dataclass(frozen=True)
class Stretch:
    """Answers whose stated chance lay in one tenth: how many, how many were right, and the 95 % score interval."""

    from_frac: float
    to_frac: float
    of_n: int
    right_n: int
    stated_frac: float | None
    right_low_frac: float | None
    right_high_frac: float | None


@dataclass(frozen=True)
class Calibration:
    """The leading cause's chance held against whether it was right, over cases that name one cause.

    A case that takes any of several does not say which it was: half a chance each is then no modesty.
    """

    brier: float
    reliability: tuple[Stretch, ...]
    error: float
    error_limit: float
    """95th percentile of the error of an answerer whose chances are exactly right."""
    slope: float | None
    slope_interval: tuple[float, float] | None
    intercept: float | None
    intercept_interval: tuple[float, float] | None


@dataclass(frozen=True)
class Score:
    """The table that `bedwalk knowledge score` prints."""

    half: Half
    cases_n: int
    first: Share
    first_three: Share
    must_not_miss: Share
    """The right cause is one to rule out first: it stands among the first five."""
    never_first: Share
    """A look-alike that must not lead does not."""
    healthy: Share
    """A healthy planting, or one with no living trouble, is not called sick."""
    calibration: Calibration | None
    failed: tuple[str, ...]
    """Ids of the cases that miss something; empty for the unseen half, which is not to be looked at."""

    def as_json(self) -> dict[str, object]:
        """Return the table for a script."""
        return asdict(self)


def evidence_of(knowledge: Knowledge, case: KnowledgeCase) -> Evidence:
    """Return what a case reports; a grower's sentences are heard as a script hears them."""
    seen, not_seen, circumstances = case.seen, case.not_seen, dict(case.circumstances)
    if case.words:
        from scout.diagnosis.words import sure_matches

        heard = sure_matches(knowledge, case.crop, case.words)
        signs = [match for match in heard if match.kind == "symptom"]
        seen = tuple(dict.fromkeys((*seen, *(match.id for match in signs if match.seen))))
        denied = (match.id for match in signs if not match.seen and match.id not in seen)
        not_seen = tuple(dict.fromkeys((*not_seen, *denied)))
        circumstances = {m.id: m.seen for m in heard if m.kind == "circumstance"} | circumstances
    return Evidence(
        crop=case.crop,
        stage=case.stage,
        season=case.season,
        seen=dict.fromkeys(seen, Count(case.looked, case.affected)),
        not_seen=dict.fromkeys(not_seen, Count(case.looked)),
        circumstances=(share_circumstances(case.looked, case.affected) if seen else {}) | circumstances,
        conditions=case.conditions,
    )


def score(knowledge: Knowledge, cases: tuple[KnowledgeCase, ...], half: Half = "tuning") -> Score:
    """Return the score of one half of the cases, or of all."""
    chosen = [case for case in cases if half == "all" or case.tuning == (half == "tuning")]
    answered = [(case, rank(knowledge, evidence_of(knowledge, case))) for case in chosen]
    ranked = [(case, ranking) for case, ranking in answered if ranking.stop is None]
    named = [(case, _order(ranking)) for case, ranking in ranked if case.expected]
    grave = [(c, order) for c, order in named if any(knowledge.causes[key].rule_out_first for key in c.expected)]
    kept_off = [(case, _order(ranking)) for case, ranking in ranked if case.not_first]
    well = [(case, ranking) for case, ranking in ranked if case.healthy]
    return Score(
        half=half,
        cases_n=len(chosen),
        first=_share(knowledge, [(c, order[0] in c.expected) for c, order in named]),
        first_three=_share(knowledge, [(c, bool(set(order[:3]) & set(c.expected))) for c, order in named]),
        must_not_miss=_share(knowledge, [(c, bool(set(order[:FIRST_FEW]) & set(c.expected))) for c, order in grave]),
        never_first=_share(knowledge, [(c, order[0] not in c.not_first) for c, order in kept_off]),
        healthy=_share(knowledge, [(c, (r.called_sick or 0.0) < CALLED_SICK) for c, r in well]),
        calibration=_calibration([(case, ranking) for case, ranking in ranked if len(set(case.expected)) == 1]),
        failed=() if half != "tuning" else tuple(c.id for c, r in answered if misses(knowledge, c, r)),
    )


def misses(knowledge: Knowledge, case: KnowledgeCase, ranking: Ranking) -> tuple[str, ...]:
    """Return what of the case's expectations the answer does not meet, a sentence each."""
    if case.stop or ranking.stop:
        given = ranking.stop.id if ranking.stop else None
        return () if given == case.stop else (f"the stop is {given}, not {case.stop}",)
    order = _order(ranking)
    living = [r.cause.id for r in ranking.causes if r.cause.living and r.probability > CALLED_SICK]
    said = (
        (case.first and order[0] not in case.first, f"first is {order[0]}"),
        (case.top3 and not set(order[:3]) & set(case.top3), f"the first three are {', '.join(order[:3])}"),
        (order[0] in case.not_first, f"{order[0]} leads"),
        (case.healthy and living, f"a healthy planting is called sick: {', '.join(living)}"),
        (case.cannot_tell not in (None, ranking.cannot_tell is not None), "cannot tell is not as expected"),
        (not set(case.rule_out) <= set(ranking.rule_out_first), f"ruled out first: {ranking.rule_out_first}"),
    )
    return tuple(sentence for wrong, sentence in said if wrong)


def _order(ranking: Ranking) -> list[str]:
    return [ranked.cause.id for ranked in ranking.causes]


def _share(knowledge: Knowledge, outcomes: list[tuple[KnowledgeCase, bool]]) -> Share:
    words = knowledge.scales.commonness.words

    def weight(case: KnowledgeCase) -> float:
        chances = (knowledge.causes[key].common.get(case.crop) for key in case.expected)
        return max((words[word] for word in chances if word), default=0.0)

    total = sum(weight(case) for case, _ in outcomes)
    hit = sum(weight(case) for case, good in outcomes if good)
    return Share(sum(good for _, good in outcomes), len(outcomes), hit / total if total else None)


def _calibration(answered: list[tuple[KnowledgeCase, Ranking]]) -> Calibration | None:
    import numpy as np

    from scout.science import calibration as sums

    if not answered:
        return None
    stated = np.array([ranking.causes[0].probability for _, ranking in answered])
    right = np.array([float(ranking.causes[0].cause.id in case.expected) for case, ranking in answered])
    line = sums.calibration_line(stated, right)
    limits = sums.bootstrap_lines(stated, right, RESAMPLES, _SEED)
    return Calibration(
        brier=sums.brier_score(stated, right),
        reliability=tuple(_stretch(one) for one in sums.reliability_bins(stated, right)),
        error=sums.calibration_error(stated, right),
        error_limit=sums.error_of_a_careful_answerer(stated, RESAMPLES, _SEED),
        slope=line.slope if line else None,
        slope_interval=(limits[1].low, limits[1].high) if limits else None,
        intercept=line.intercept if line else None,
        intercept_interval=(limits[0].low, limits[0].high) if limits else None,
    )


def _stretch(one: "Bin") -> Stretch:
    from scout.science.sampling import wilson_interval

    low, high = wilson_interval(one.right_n, one.of_n) if one.of_n else (None, None)
    return Stretch(*one, right_low_frac=low, right_high_frac=high)
