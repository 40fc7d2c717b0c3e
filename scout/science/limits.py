"""The door of every calculation: what cannot be is refused with a sentence that names it."""


def require_within(name: str, value_same: float, low_same: float, high_same: float) -> None:
    """Refuse a value outside its limits; "not a number" lies outside all limits.

    Units: value and limits share one unit; `name` is the parameter as the caller spells it.
    Valid: low_same ≤ high_same, both belong to the range.
    Raises: ValueError naming the parameter, the value and the range.
    Source: house rule; the limits themselves come with the caller.
    """
    if not low_same <= value_same <= high_same:
        raise ValueError(f"{name} is {value_same:g}, possible is {low_same:g} to {high_same:g}")


def require_count(name: str, count_n: int, least_n: int = 0) -> None:
    """Refuse a count below the least one that makes sense; raises ValueError naming it."""
    if count_n < least_n:
        raise ValueError(f"{name} is {count_n}, the least that makes sense is {least_n}")


def require_confidence(confidence_frac: float) -> None:
    """Refuse a level of confidence that is not strictly between 0 and 1.

    Units: share; 0.95 means 95 %.
    Valid: 0 < confidence_frac < 1.
    Raises: ValueError outside that.
    Source: definition of a confidence level.
    """
    if not 0.0 < confidence_frac < 1.0:
        raise ValueError(f"confidence_frac is {confidence_frac:g}, it must lie between 0 and 1")
