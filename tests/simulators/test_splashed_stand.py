"""The stand itself is plausible; nothing of the estimator is asked here."""

from dataclasses import replace

import numpy as np

from .splashed_stand import LEAVES_N, Place, Stand, drawn_place, stand_season, strip


def grown(place: Place, seed: int, days: int = 40) -> Stand:
    stand = Stand(place, np.random.default_rng(seed))
    for _ in range(days):
        stand.step()
    return stand


def test_a_seed_gives_the_same_season_again_and_another_seed_another() -> None:
    assert stand_season(1, 5, 2) == stand_season(1, 5, 2)
    assert stand_season(1, 5, 2).rows != stand_season(2, 5, 2).rows


def test_leaves_and_spots_never_go_back_and_spots_stay_on_open_leaves() -> None:
    stand = Stand(drawn_place(np.random.default_rng(3)), np.random.default_rng(3))
    for day in range(60):
        tops, front = stand.tops, stand.front()
        stand.step()
        assert (stand.tops >= tops).all() and (stand.front() >= front).all() and (stand.front() <= stand.tops).all()
        if day % 7 == 0:
            strip(stand, 0, stand.spots()[0] > 0)
    assert not (stand.gone[0] & (np.arange(LEAVES_N) >= stand.tops[0])).any()


def test_without_rain_splash_or_drift_nothing_is_caught_and_with_more_contagion_more() -> None:
    place = replace(drawn_place(np.random.default_rng(5)), warm_c=24.0, drift=0.0)
    dry = grown(replace(place, rain_start=0.0, rain_stay=0.0), 5)
    low, high = (grown(replace(place, rain_start=0.4, contagion=catch), 5) for catch in (0.05, 2.0))
    assert dry.lesions[-1].sum() == 0.0
    assert 0.0 < low.lesions[-1].sum() < high.lesions[-1].sum()


def test_splash_falls_off_with_height_to_a_third_within_its_reach() -> None:
    # exponential by construction: exp(-1) = 0.37 of the dose one reach up, exp(-0.5) = 0.61 as far down
    place = replace(drawn_place(np.random.default_rng(7)), gap_cm=np.full(6, 5.0), splash_cm=15.0)
    reach = Stand(place, np.random.default_rng(7)).reach[0]
    assert np.isclose(reach[13, 10], np.exp(-1.0)) and np.isclose(reach[7, 10], np.exp(-0.5))


def test_the_knife_takes_three_leaves_at_most_and_none_when_wet() -> None:
    stand = grown(replace(drawn_place(np.random.default_rng(9)), style="low"), 9)
    spotted = np.ones(LEAVES_N, dtype=bool)
    stand.wet_h = 12.0
    strip(stand, 0, spotted)
    assert not stand.gone.any()
    stand.wet_h = 0.0
    strip(stand, 0, spotted)
    assert np.flatnonzero(stand.gone[0]).tolist() == [0, 1, 2]


def test_visits_are_irregular_and_cells_are_missing() -> None:
    seasons = [stand_season(seed, 5, 3) for seed in range(5)]
    days = [sorted({row.day for row in season.rows}) for season in seasons]
    assert len({int(gap) for one in days for gap in np.diff(one)}) >= 3
    assert any(row.top_leaf is None or row.highest_diseased is None for season in seasons for row in season.rows)
