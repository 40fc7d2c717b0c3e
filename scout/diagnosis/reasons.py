"""What each clue did to each cause: the change of its log-odds when the clue alone is left out."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.model import Model

if TYPE_CHECKING:
    from scout.diagnosis.network import Array, Flags, Solved

TELLING = 0.15
"""Log-odds from which a clue counts as a reason. Our choice."""
ClueKind = Literal[
    "seen", "not_seen", "circumstance", "condition", "stage", "season", "excludes", "earlier", "response"
]


@dataclass(frozen=True)
class Reason:
    """One clue and what it did: the change of the cause's log-odds when the clue is left out."""

    kind: ClueKind
    subject: str
    holds: bool
    log_odds: float


@dataclass(frozen=True)
class Variants:
    """The evidence as it is, with each clue left out in turn, and with groups of causes that are not at work."""

    model: Model
    solved: "Solved"
    """Rows: as it is; one a clue (seen, not seen, shifts); one a group."""

    @property
    def evidence(self) -> float:
        """Return the chance of the evidence as it is."""
        return float(self.solved.evidence[0])

    @property
    def chances(self) -> "Array":
        """Return the chance of each cause given the evidence as it is, (n,)."""
        first: Array = self.solved.marginals[0]
        return first

    def reasons(self) -> list[list[Reason]]:
        """Return for each cause the clues that moved it, the strongest first."""
        import numpy as np

        model = self.model
        clues: list[tuple[ClueKind, str]] = [("seen", s) for s in model.positive]
        clues += [("not_seen", s) for s in model.negative]
        first_shift = len(clues)
        clues += list(model.shift_keys)
        without = self.solved.marginals[1 : 1 + len(clues)]
        change = log_odds(self.chances)[None, :] - log_odds(without)
        found: list[list[Reason]] = [[] for _ in model.causes]
        rows, causes = np.nonzero(np.abs(change) >= TELLING)
        for row, cause, moved in zip(rows.tolist(), causes.tolist(), change[rows, causes].tolist(), strict=True):
            kind, subject = clues[row]
            holds = bool(model.holds[row - first_shift, cause]) if row >= first_shift else kind == "seen"
            found[cause].append(Reason(kind, subject, holds, moved))
        for each in found:
            each.sort(key=lambda reason: -abs(reason.log_odds))
        return found

    def by_itself(self) -> "Array":
        """Return the chance that no known cause made each positive finding, (positives,).

        That the finding might have been missing is what leaving it out adds to the evidence.
        """
        left_out = self.solved.evidence[1 : 1 + len(self.model.positive)]
        result: Array = (left_out / self.evidence - 1.0) * self.model.leak / (1.0 - self.model.leak)
        return result

    def without_group(self, group: int) -> float:
        """Return how much likelier the evidence is where none of a group of causes is at work; under 1: less likely."""
        groups = self.solved.evidence[1 + len(self.model.positive + self.model.negative + self.model.shift_keys) :]
        return float(groups[group]) / self.evidence


def solve_variants(model: Model, groups: "Flags") -> Variants:
    """Solve the evidence with all its variants in one run of the network; groups of causes: (g, n)."""
    import numpy as np

    from scout.diagnosis.network import solve

    seen, unseen, moved = len(model.positive), len(model.negative), len(model.shift_keys)
    rows = 1 + seen + unseen + moved + len(groups)
    required = np.ones((rows, seen), dtype=bool)
    np.fill_diagonal(required[1:], False)
    keep = np.repeat(model.miss.prod(axis=1)[None], rows, axis=0)
    keep[1 + seen : 1 + seen + unseen] = np.where(np.eye(unseen, dtype=bool)[:, None], 1.0, model.miss).prod(axis=2)
    prior = np.repeat(model.prior()[None], rows, axis=0)
    prior[1 + seen + unseen : rows - len(groups)] = model.priors_without()
    prior[rows - len(groups) :][groups] = 0.0
    return Variants(model, solve(prior, keep, model.strength, model.leak, required))


def log_odds(chance: "Array") -> "Array":
    """Return the log-odds of chances, kept finite at 0 and 1."""
    import numpy as np

    safe = np.clip(chance, 1e-15, 1.0 - 1e-15)
    result: Array = np.log(safe / (1.0 - safe))
    return result
