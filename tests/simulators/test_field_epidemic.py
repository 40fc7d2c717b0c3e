"""The simulator itself is plausible; nothing of the estimator is asked here."""

import numpy as np
import pytest

from .field_epidemic import bare_field, drawn_place, field_season, severity, step, strip_low


def test_a_seed_gives_the_same_season_again_and_another_seed_another() -> None:
    assert field_season(1, 5, 2) == field_season(1, 5, 2)
    assert field_season(1, 5, 2).rows != field_season(2, 5, 2).rows


@pytest.mark.parametrize("seed", range(4))
def test_leaves_are_conserved_and_nodes_never_go_back(seed: int) -> None:
    rng = np.random.default_rng(seed)
    place = drawn_place(rng)
    field = bare_field(rng, place)
    for day in range(60):
        tops, front, line = field.tops, field.front, field.strip
        step(field, place, rng)
        if day % 7 == 0:
            strip_low(field, np.array([True]))
        assert (field.tops >= tops).all() and (field.front >= front).all() and (field.strip >= line).all()
        assert (field.standing.sum(axis=-1) + field.strip == field.tops).all()
        assert (field.front <= field.tops).all()
        assert not (field.spotted & ~field.infected).any()


def test_visits_come_at_their_spacing_for_six_to_seven_weeks() -> None:
    season = field_season(3, 7, 3)
    days = sorted({row.day for row in season.rows})
    assert np.diff(days).tolist() == [7] * (len(days) - 1)
    assert 42 <= days[-1] <= 49 and len(season.rows) == 3 * len(days)


def test_wet_hours_weigh_as_in_the_four_class_table() -> None:
    # Madden, Pennypacker & MacNab 1978, from memory: 21-25 C, 6-12 h is 2 of 4; below 13 C never
    assert severity(np.array([23.0, 12.0, 15.0]), np.array([8.0, 24.0, 21.0])).tolist() == [0.5, 0.0, 0.75]
