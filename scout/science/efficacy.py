"""What a treatment did beyond what happened anyway: treated plants against untreated ones."""

from scout.science.limits import require_count


def henderson_tilton_pct(
    treated_before: tuple[int, int],
    treated_after: tuple[int, int],
    control_before: tuple[int, int],
    control_after: tuple[int, int],
) -> float:
    """Return the efficacy in per cent from living counts, each (found, looked at); negative when it got worse.

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


def abbott_pct(treated_after: tuple[int, int], control_after: tuple[int, int]) -> float:
    """Return the corrected mortality in per cent from living counts, each (found, looked at); negative when worse.

    Raises ValueError for a negative count, none looked at, or none left untreated.
    Source: Abbott 1925, J. Econ. Entomol. 18:265-267, on the means per plant.
    """
    for found_n, looked_n in (treated_after, control_after):
        require_count("looked_n", looked_n, 1)
        require_count("found_n", found_n)
    require_count("control_living_n", control_after[0], 1)
    treated, control = treated_after[0] / treated_after[1], control_after[0] / control_after[1]
    return 100.0 * (control - treated) / control
