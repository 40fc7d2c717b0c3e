"""Find where a steadily rising or falling function passes a level."""

from collections.abc import Callable


def crossing(function: Callable[[float], float], level_frac: float, low_same: float, high_same: float) -> float:
    """Return the argument at which a monotone function equals the level, to the last bits of a float.

    Units: level_frac a probability (what the function returns); low_same, high_same and result in the unit of
        the function's argument.
    Valid: the function rises or falls all the way from low_same to high_same and passes the level in between.
    Raises: ValueError when it does not pass the level there.
    Source: halving the interval until no float lies between its ends.
    """
    above_at_low = function(low_same) > level_frac
    if above_at_low == (function(high_same) > level_frac):
        raise ValueError(f"the level {level_frac:g} is not passed between {low_same:g} and {high_same:g}")
    while low_same < (middle := (low_same + high_same) / 2.0) < high_same:
        if (function(middle) > level_frac) == above_at_low:
            low_same = middle
        else:
            high_same = middle
    return middle
