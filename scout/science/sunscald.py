"""Whether fruit in the sun is hot enough to be scalded."""

from typing import Literal

from scout.science.limits import require_within

SunscaldRisk = Literal["none", "possible", "likely"]

SUN_ADDS_LEAST_K, SUN_ADDS_MOST_K = 5.0, 15.0
"""How much warmer than the air the skin of fruit in full sun becomes; from memory."""

NEWLY_BARED_LESS_K = 5.0
"""How much less heat fruit bears that lay in the shade until last week. Our choice: much less, says the source."""

SKIN_LIMITS_C = {"cucumber": 38.0, "sweet_pepper": 41.0, "hot_pepper": 41.0, "tomato": 40.0}
"""Skin at which the lower printed limit lies. Cucumber 38-40 and pepper 41-42 °C: University of Delaware weekly crop
update 18732; tomato about 40 °C: a textbook line seen second-hand."""


def sunscald_risk(crop: str, tmax_c: float, *, newly_bared: bool) -> SunscaldRisk | None:
    """Return how likely fruit in full sun is to be scalded on such a day; None for a crop without a known limit.

    Fruit that lost its leaves within the last week scalds in much less heat than fruit used to the sun: it is told one
    step worse.

    Units: tmax_c °C, of the air.
    Valid: -60 to 60 °C; the crops of SKIN_LIMITS_C; a clear day. Fruit under leaves is not in danger.
    Raises: ValueError outside that.
    Source: SKIN_LIMITS_C; the warming by the sun is from memory, the step and its limit are our choice.
    """
    require_within("tmax_c", tmax_c, -60.0, 60.0)
    limit = SKIN_LIMITS_C.get(crop)
    if limit is None:
        return None
    if tmax_c + SUN_ADDS_LEAST_K >= limit:
        return "likely"
    if tmax_c + SUN_ADDS_MOST_K >= limit:
        return "likely" if newly_bared else "possible"
    return "possible" if newly_bared and tmax_c + SUN_ADDS_MOST_K >= limit - NEWLY_BARED_LESS_K else "none"
