"""The score as lines of plain characters, at most 45 columns wide in its diagram."""

from scout.services.score import Score, Share, Stretch

COLUMNS = 25
"""Cells of the diagram from 0 to 100 %; with the figures beside it a line is at most 45 wide."""


def score_lines(result: Score) -> list[str]:
    """Return the table, the reliability diagram under it, and the cases that miss."""
    lines = [f"{result.cases_n} cases, half: {result.half}"]
    lines += [
        _row("right cause leads", result.first),
        _row("right cause in the first three", result.first_three),
        _row("must-not-miss in the first five", result.must_not_miss),
        _row("look-alike kept from the lead", result.never_first),
        _row("healthy not called sick", result.healthy),
    ]
    kept = result.calibration
    if kept is not None:
        lines.append(f"{'Brier score':<32} {kept.brier:.3f}")
        lines.append(
            f"{'calibration error':<32} {kept.error:.3f} (a careful answerer stays under {kept.error_limit:.3f})"
        )
        lines.append(f"{'calibration slope':<32} {_with_limits(kept.slope, kept.slope_interval)}")
        lines.append(f"{'calibration intercept':<32} {_with_limits(kept.intercept, kept.intercept_interval)}")
        lines += diagram(kept.reliability)
    return lines + [f"misses: {key}" for key in result.failed]


def diagram(stretches: tuple[Stretch, ...]) -> list[str]:
    """Return the reliability diagram: a row for each tenth of the stated chance, the share right as o between its
    95 % limits, and | where it would stand if chances were exactly right."""
    head = [
        "",
        "Stated chance of the first cause against",
        "how often it was right (o, 95 % limits);",
        "| is where o belongs.",
    ]
    foot = f"{'':9}0{'right %':^{COLUMNS - 4}}100"
    return [*head, f"{'stated':<9}{'':{COLUMNS}}  right", *(_bar(one) for one in stretches if one.of_n), foot]


def _bar(one: Stretch) -> str:
    cells = [" "] * COLUMNS
    if one.right_low_frac is not None and one.right_high_frac is not None and one.stated_frac is not None:
        for cell in range(_cell(one.right_low_frac), _cell(one.right_high_frac) + 1):
            cells[cell] = "-"
        cells[_cell(one.stated_frac)] = "|"
        cells[_cell(one.right_n / one.of_n)] = "o"
    span = f"{100 * one.from_frac:.0f}-{100 * one.to_frac:.0f} %"
    return f"{span:<9}{''.join(cells)}{one.right_n:>4}/{one.of_n}"


def _cell(share: float) -> int:
    return min(COLUMNS - 1, int(share * COLUMNS))


def _row(name: str, share: Share) -> str:
    if share.frac is None:
        return f"{name:<32} no case"
    weighed = f", weighed {100 * share.weighed_frac:.1f} %" if share.weighed_frac is not None else ""
    return f"{name:<32} {share.hits_n} of {share.of_n} ({100 * share.frac:.1f} %{weighed})"


def _with_limits(value: float | None, limits: tuple[float, float] | None) -> str:
    if value is None or limits is None:
        return "not known: all right or all wrong"
    return f"{value:.2f} ({limits[0]:.2f} to {limits[1]:.2f})"
