"""From the command to the first paint and to the first row of today's list, each against a bare app in the same run."""

from .conftest import Times

ROUNDS = 7
MOST = 1.3


def shown_after(run, texts, *program) -> list[float]:
    """Return the seconds from the start until each text stands on the screen."""
    with run(*program) as terminal:
        return [terminal.wait_for(text, seconds=60).seconds for text in texts]


def measured(run, pairs) -> list[list[Times]]:
    """Return the times of several programs, taken in turn so that a busy moment meets all of them."""
    taken: list[list[list[float]]] = [[] for _ in pairs]
    for turn in range(ROUNDS + 1):
        for number, (texts, program) in enumerate(pairs):
            times = shown_after(run, texts, *program)
            if turn:  # the first turn compiles
                taken[number].append(times)
    return [[Times(column) for column in zip(*rows, strict=True)] for rows in taken]


BEDWALK = (("Opening the garden", "Jobs and re-looks"), ("bedwalk",))
"""The first row names the stops due; the row of jobs stands below it in the same paint."""


def test_first_paint(benchmark, run, tell) -> None:
    (bare,), (paint, _) = benchmark.pedantic(measured, args=(run, [(("row 1",), ("bare_list",)), BEDWALK]))
    ratio = paint.median_ms / bare.median_ms
    tell(paint_ms=paint.median_ms, bare_ms=bare.median_ms, ratio=ratio)
    assert ratio <= MOST


def test_first_row_of_today(benchmark, run, tell) -> None:
    store = (("row from the store",), ("bare_list", "sqlmodel"))
    (bare,), (_, row) = benchmark.pedantic(measured, args=(run, [store, BEDWALK]))
    ratio = row.median_ms / bare.median_ms
    tell(row_ms=row.median_ms, bare_ms=bare.median_ms, ratio=ratio)
    assert ratio <= MOST
