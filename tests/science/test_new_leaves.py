"""New leaves before and after the knife, counted only once leaves infected before have shown."""

import pytest
from scipy import stats

from scout.science.keeping_up import Visit
from scout.science.new_leaves import diseased_ever_n, last_strip_day, left_unstripped_compared, new_leaves_compared


def plant(*visits: tuple[float, int | None, int | None]) -> list[Visit]:
    """Visits of day, strip line, newly diseased."""
    return [Visit(day, 20, 5, strip, new) for day, strip, new in visits]


STRIPPED = plant((0.0, None, None), (7.0, 3, 6), (14.0, 4, 9), (21.0, 5, 2), (28.0, 5, 1))


def test_leaves_infected_before_the_knife_count_for_neither_side() -> None:
    found = new_leaves_compared([STRIPPED], incubation_d=7.0)
    assert (found.before_n, found.before_d) == (6, 7.0)
    assert (found.after_n, found.after_d) == (3, 14.0)  # the nine of day 14 were infected before day 7
    assert found.counts_from_d == 14.0


def test_the_comparison_is_the_exact_conditional_binomial() -> None:
    found = new_leaves_compared([STRIPPED], incubation_d=7.0)
    assert found.compared is not None
    # Reference: scipy.stats.binomtest, 6 of 9 at a third of the exposure.
    assert found.compared.p_least_likely == pytest.approx(stats.binomtest(6, 9, 1 / 3).pvalue, abs=1e-9)


def test_a_longer_incubation_waits_longer() -> None:
    assert new_leaves_compared([STRIPPED], incubation_d=8.0).after_n == 1


def test_without_stripping_there_is_no_after() -> None:
    found = new_leaves_compared([plant((0.0, None, None), (7.0, 0, 2), (14.0, None, 5))], incubation_d=7.0)
    assert (found.before_n, found.after_d, found.compared, found.counts_from_d) == (7, 0.0, None, None)


def test_a_count_left_out_takes_its_days_out_too() -> None:
    found = new_leaves_compared([plant((0.0, 0, None), (7.0, 0, None), (14.0, 0, 4))], incubation_d=7.0)
    assert (found.before_n, found.before_d) == (4, 7.0)


def test_incubation_must_be_days_that_can_be() -> None:
    with pytest.raises(ValueError, match="incubation_d"):
        new_leaves_compared([STRIPPED], incubation_d=-1.0)


def test_a_strip_line_that_stays_is_no_stripping() -> None:
    assert last_strip_day([STRIPPED]) == 21.0
    assert last_strip_day([plant((0.0, None, None), (7.0, 0, 1))]) is None


def test_all_diseased_leaves_are_summed_taken_off_or_not() -> None:
    assert diseased_ever_n([STRIPPED, STRIPPED]) == 36


def test_plants_left_unstripped_are_compared_over_the_same_days_after_old_infections_showed() -> None:
    stripped = [[Visit(0.0, 12, 3), Visit(7.0, 14, 3, 2, 5), Visit(14.0, 16, 4, 2, 4), Visit(21.0, 18, 4, 2, 2)]] * 2
    left = [[Visit(0.0, 12, 3), Visit(7.0, 14, 3, None, 6), Visit(14.0, 16, 5, None, 4), Visit(21.0, 18, 8, None, 5)]]
    found = left_unstripped_compared(stripped, left, 6.0)
    # Stripped on day 7 and 6 days to the spot: only the stretch from day 14 to 21 counts on either side.
    assert (found.stripped_n, found.stripped_d, found.left_n, found.left_d) == (4, 14.0, 5, 7.0)
    assert found.compared is not None and found.compared.ratio == pytest.approx(2.5)
    # 5 or more of 9 when a third is expected: 5 in 7 days against 4 in 14, exact by the conditional binomial.
    assert found.compared.p_least_likely == pytest.approx(stats.binomtest(5, 9, 1 / 3).pvalue, rel=1e-9)


def test_without_stripping_or_counts_nothing_is_compared() -> None:
    plant = [Visit(0.0, 12, 3), Visit(7.0, 14, 3, None, 2)]
    assert left_unstripped_compared([plant], [plant], 6.0).compared is None
    stripped = [Visit(0.0, 12, 3, 2), Visit(7.0, 14, 3, 2, 2)]
    assert left_unstripped_compared([stripped], [plant], 6.0).compared is None
