"""What a treatment did beyond what happened anyway: treated plants against untreated ones."""

from scout.science.limits import require_count, require_within


def abbott_pct(treated_dead_pct: float, control_dead_pct: float) -> float:
    """Return the corrected mortality; negative when more died untreated.

    Units: all %.
    Valid: control_dead_pct under 100; not advised where over 20 % died untreated.
    Raises: ValueError outside 0 to 100, or when all untreated died.
    Source: Abbott 1925, J. Econ. Entomol. 18:265-267.
    """
    require_within("treated_dead_pct", treated_dead_pct, 0.0, 100.0)
    require_within("control_dead_pct", control_dead_pct, 0.0, 100.0)
    if control_dead_pct == 100.0:
        raise ValueError("control_dead_pct is 100: with no survivor to compare there is no answer")
    return 100.0 * (treated_dead_pct - control_dead_pct) / (100.0 - control_dead_pct)


def abbott_from_living_pct(treated_living_n: int, control_living_n: int) -> float:
    """Return the corrected mortality in per cent from living counts of equal plots.

    Raises ValueError for a negative count or when none is left untreated.
    Source: Abbott 1925, J. Econ. Entomol. 18:265-267.
    """
    require_count("treated_living_n", treated_living_n)
    require_count("control_living_n", control_living_n, 1)
    return 100.0 * (control_living_n - treated_living_n) / control_living_n


def henderson_tilton_pct(
    treated_before_n: int, treated_after_n: int, control_before_n: int, control_after_n: int
) -> float:
    """Return the efficacy in per cent from living counts before and after; negative when it got worse.

    Raises ValueError for a negative count, or for zero where the formula divides: treated_before_n,
    control_after_n (a zero control_before_n means no comparison, and is refused too).
    Source: Henderson & Tilton 1955, J. Econ. Entomol. 48:157-161.
    """
    require_count("treated_before_n", treated_before_n, 1)
    require_count("treated_after_n", treated_after_n)
    require_count("control_before_n", control_before_n, 1)
    require_count("control_after_n", control_after_n, 1)
    kept = treated_after_n / treated_before_n * control_before_n / control_after_n
    return 100.0 * (1.0 - kept)


def henderson_tilton_per_one_pct(
    treated_before: tuple[int, int],
    treated_after: tuple[int, int],
    control_before: tuple[int, int],
    control_after: tuple[int, int],
) -> float:
    """Return the efficacy in per cent where unlike numbers of plants were looked at; each count is (found, looked at).

    Raises ValueError for a negative count, none looked at, or zero found where the formula divides.
    Source: Henderson & Tilton 1955, J. Econ. Entomol. 48:157-161, on the means per plant, as trials use it.
    """
    for found_n, looked_n in (treated_before, treated_after, control_before, control_after):
        require_count("looked_n", looked_n, 1)
        require_count("found_n", found_n)
    for name, (found_n, _) in (("treated_before_n", treated_before), ("control_after_n", control_after)):
        require_count(name, found_n, 1)
    require_count("control_before_n", control_before[0], 1)
    (tb, ta, cb, ca) = (n / of for n, of in (treated_before, treated_after, control_before, control_after))
    return 100.0 * (1.0 - ta / tb * cb / ca)


def abbott_per_one_pct(treated_after: tuple[int, int], control_after: tuple[int, int]) -> float:
    """Return the corrected mortality in per cent from living counts on unlike numbers of plants: (found, looked at).

    Raises ValueError for a negative count, none looked at, or none left untreated.
    Source: Abbott 1925, J. Econ. Entomol. 18:265-267, on the means per plant.
    """
    for found_n, looked_n in (treated_after, control_after):
        require_count("looked_n", looked_n, 1)
        require_count("found_n", found_n)
    require_count("control_living_n", control_after[0], 1)
    treated, control = treated_after[0] / treated_after[1], control_after[0] / control_after[1]
    return 100.0 * (control - treated) / control
