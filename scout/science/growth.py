"""How fast a marked plant, or the disease on it, climbs: nodes counted from the soil."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scout.science.limits import require_count, require_within


@dataclass(frozen=True, slots=True)
class NodeSpeed:
    """A straight line through the node counts of one plant."""

    per_d: float
    """Nodes a day; negative where the count went down."""
    std_error_per_d: float | None
    """None with two visits: two points always lie on a line, so nothing is known of the error."""
    visits_n: int
    """Visits with a count."""
    span_d: float
    """Days from the first to the last of them."""


def node_speed_per_d(day_d: Sequence[float], node_n: Sequence[float | None]) -> NodeSpeed | None:
    """Return the least-squares speed of a node count, or None with fewer than two days measured.

    Units: day_d days, node_n nodes from the soil (None = not measured); result nodes a day.
    Valid: node counts from 0 to 300; visits in any order.
    Raises: ValueError for unequal lengths or an impossible count.
    Source: ordinary least squares, textbook formula.
    """
    points = [(day, node) for day, node in zip(day_d, node_n, strict=True) if node is not None]
    for _, node in points:
        require_within("node_n", node, 0.0, 300.0)
    days = [day for day, _ in points]
    if len(set(days)) < 2:
        return None
    mean_day = math.fsum(days) / len(points)
    mean_node = math.fsum(node for _, node in points) / len(points)
    spread = math.fsum((day - mean_day) ** 2 for day in days)
    slope = math.fsum((day - mean_day) * (node - mean_node) for day, node in points) / spread
    misses = math.fsum((node - mean_node - slope * (day - mean_day)) ** 2 for day, node in points)
    error = None if len(points) < 3 else math.sqrt(misses / (len(points) - 2) / spread)
    return NodeSpeed(slope, error, len(points), max(days) - min(days))


def clean_depth(top_leaf_n: int, highest_diseased_n: int | None) -> int | None:
    """Return how many leaves stand clean above the highest diseased one; None where that was not measured.

    Both are counted in nodes from the soil; highest_diseased_n 0 means looked and found none diseased.
    Raises ValueError for a negative count or a diseased leaf above the top.
    """
    require_count("top_leaf_n", top_leaf_n)
    if highest_diseased_n is None:
        return None
    require_count("highest_diseased_n", highest_diseased_n)
    if highest_diseased_n > top_leaf_n:
        raise ValueError(f"highest_diseased_n {highest_diseased_n} is above top_leaf_n {top_leaf_n}")
    return top_leaf_n - highest_diseased_n
