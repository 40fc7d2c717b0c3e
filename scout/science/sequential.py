"""Look at more plants, or stop: Wald's lines for a count that is held against a mark."""

import math
from dataclasses import dataclass
from typing import Literal

from scout.science.limits import require_count, require_within

Side = Literal["below", "at_or_above", "look_on"]


@dataclass(frozen=True, slots=True)
class StopLines:
    """Two straight lines over the number looked at; between them nothing is decided."""

    slope_ratio: float
    """Rise of both lines for each one looked at."""
    low_ratio: float
    """Where the lower line meets zero; negative."""
    high_ratio: float

    def side(self, found_n: int, looked_n: int) -> Side:
        """Return on which side of the lines a count lies.

        Raises ValueError for a negative count. Source: Wald 1947, Sequential Analysis.
        """
        require_count("found_n", found_n)
        require_count("looked_n", looked_n)
        if found_n >= self.slope_ratio * looked_n + self.high_ratio:
            return "at_or_above"
        return "below" if found_n <= self.slope_ratio * looked_n + self.low_ratio else "look_on"

    def more_to_look_at(self, found_n: int, looked_n: int) -> int | None:
        """Return how many more to look at until a line is reached, if they carry as many as those looked at so far.

        None: at this rate no line is ever reached. 0: one is reached. Raises ValueError when none was looked at.
        Source: the lines of Wald 1947 solved for the number looked at; that the rate goes on is our own assumption.
        """
        require_count("looked_n", looked_n, 1)
        if self.side(found_n, looked_n) != "look_on":
            return 0
        drift = found_n / looked_n - self.slope_ratio
        if drift == 0.0:
            return None
        wanted = (self.high_ratio if drift > 0.0 else self.low_ratio) / drift
        return max(1, math.ceil(wanted - looked_n - 1e-9))


def wald_lines_for_shares(low_frac: float, high_frac: float, alpha_frac: float, beta_frac: float) -> StopLines:
    """Return the lines for plants that show it, out of plants looked at.

    Units: shares; alpha_frac the chance of crying "above" at the low share, beta_frac of "below" at the high one.
    Valid: 0 < low_frac < high_frac < 1; plants at random.
    Raises: ValueError outside that.
    Source: Wald 1947, Sequential Analysis, binomial.
    """
    require_within("low_frac", low_frac, 1e-9, high_frac - 1e-9)
    require_within("high_frac", high_frac, low_frac, 1.0 - 1e-9)
    scale = math.log(high_frac * (1.0 - low_frac) / (low_frac * (1.0 - high_frac)))
    slope = math.log((1.0 - low_frac) / (1.0 - high_frac)) / scale
    return _lines(slope, scale, alpha_frac, beta_frac)


def wald_lines_for_numbers(low_ratio: float, high_ratio: float, alpha_frac: float, beta_frac: float) -> StopLines:
    """Return the lines for numbers found, on plants or leaves looked at.

    Units: low_ratio and high_ratio mean numbers for each one looked at; the risks are shares.
    Valid: 0 < low_ratio < high_ratio; finds that come singly. Insects in clumps cross a line too easily: count
        groups, or hold shares of plants against a mark.
    Raises: ValueError outside that.
    Source: Wald 1947, Sequential Analysis, Poisson.
    """
    require_within("low_ratio", low_ratio, 1e-9, high_ratio - 1e-9)
    scale = math.log(high_ratio / low_ratio)
    return _lines((high_ratio - low_ratio) / scale, scale, alpha_frac, beta_frac)


def _lines(slope: float, scale: float, alpha: float, beta: float) -> StopLines:
    for name, risk in (("alpha_frac", alpha), ("beta_frac", beta)):
        require_within(name, risk, 1e-9, 0.5)
    return StopLines(slope, math.log(beta / (1.0 - alpha)) / scale, math.log((1.0 - beta) / alpha) / scale)
