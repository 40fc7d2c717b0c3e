"""New leaves before and after the knife, counted only once leaves infected before have shown."""

import pytest
from scipy import stats

from scout.science.keeping_up import Visit
from scout.science.new_leaves import diseased_ever_n, last_strip_day, new_leaves_compared


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
