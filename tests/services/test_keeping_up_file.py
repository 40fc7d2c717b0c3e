"""Simulated seasons through the front door: the CSV gives the verdict that the counts give."""

from pathlib import Path

from scout.science.keeping_up import race
from scout.science.keeping_verdict import verdict_of
from scout.services.keeping_source import followed_in_file
from scout.services.keeping_up import judge

from ..simulators.counts_file import Named, csv_of
from ..simulators.known_speeds import known_season
from ..simulators.layered_plants import layered_season
from ..simulators.outcomes import plants_until


def test_a_file_of_seasons_gives_one_verdict_a_planting(tmp_path: Path) -> None:
    seasons = {f"layered {seed}": layered_season(seed, 7, 2) for seed in range(3)}
    seasons |= {f"known {seed}": known_season(seed, 5, 3) for seed in range(3)}
    file = tmp_path / "seasons.csv"
    file.write_text(csv_of(Named(name, season.rows) for name, season in seasons.items()), encoding="utf-8")
    followed, by_planting = followed_in_file(file)
    assert by_planting and [one.planting for one in followed] == list(seasons)
    for one in followed:
        assert one.planting is not None
        plants, told = plants_until(seasons[one.planting], 99), judge(one)
        assert told.verdict == verdict_of(plants)
        assert told.probability_losing == race(plants).probability_losing
