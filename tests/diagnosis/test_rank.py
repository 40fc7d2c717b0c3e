"""The ranking as an argument: reasons, stops, ties, pairs, what nothing explains."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.model import SHIFT_LIMIT, TOTAL_SHIFT_LIMIT, build_model
from scout.diagnosis.network import solve
from scout.diagnosis.next_look import next_looks
from scout.diagnosis.rank import rank
from scout.diagnosis.reasons import solve_variants

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
CROPS = sorted(KNOWLEDGE.crops)
LINKED = {
    crop: sorted({c.symptom for cause in KNOWLEDGE.causes_of(crop) for c in cause.clues if c.symptom}) for crop in CROPS
}


def seen(*symptoms: str, looked: int | None = None, affected: int | None = None) -> dict[str, Count]:
    return dict.fromkeys(symptoms, Count(looked, affected))


def chance(ranking, cause: str) -> float:
    return next(r.probability for r in ranking.causes if r.cause.id == cause)


def test_bitter_squash_stops_before_any_ranking() -> None:
    ranking = rank(KNOWLEDGE, Evidence(crop="summer_squash", seen=seen("fruit.bitter_taste", "leaf.mosaic")))
    assert ranking.stop is not None and ranking.causes == ()
    words = " ".join((ranking.stop.title, *ranking.stop.lines)).casefold()
    assert "poison" in words and "spit" in words


def test_no_question_ever_invites_a_taste() -> None:
    for crop in CROPS:
        asked = next_looks(KNOWLEDGE, Evidence(crop=crop), most=500)
        assert all(
            "bitter" not in look.symptom.id and "taste" not in look.symptom.question.casefold() for look in asked
        )


@pytest.mark.parametrize("crop", CROPS)
def test_chances_come_in_order_and_lie_between_0_and_1(crop) -> None:
    ranking = rank(KNOWLEDGE, Evidence(crop=crop, seen=seen(*LINKED[crop][:3])))
    chances = [r.probability for r in ranking.causes]
    assert chances == sorted(chances, reverse=True)
    assert all(0.0 <= p <= 1.0 for p in chances)
    assert len(chances) == len(KNOWLEDGE.causes_of(crop))


@given(data=st.data())
def test_the_reasons_of_a_cause_are_what_leaving_the_clue_out_does(data) -> None:
    crop = data.draw(st.sampled_from(CROPS))
    picked = data.draw(st.lists(st.sampled_from(LINKED[crop]), min_size=2, max_size=4, unique=True))
    ranking = rank(KNOWLEDGE, Evidence(crop=crop, seen=seen(*picked)))
    without = rank(KNOWLEDGE, Evidence(crop=crop, seen=seen(*picked[1:])))
    first = ranking.causes[0]
    told = next(
        (r.log_odds for r in (*first.because, *first.against) if r.subject == picked[0] and r.kind == "seen"), 0.0
    )
    before, after = chance(without, first.cause.id), first.probability
    excluded = picked[0] in first.cause.excludes or any(picked[0] in c.excludes for c in KNOWLEDGE.causes_of(crop))
    if not excluded and abs(told) > 0:
        assert told == pytest.approx(np.log(after / (1 - after)) - np.log(before / (1 - before)), abs=1e-6)


def enumerated(model, counted, prior, keep, own=None):
    """Brute force over all combinations of the causes that explain something; the others are independent.

    own: flags of causes that must have made none of the findings. Return evidence and each cause's joint.
    """
    linked = np.flatnonzero(model.strength.any(axis=1))
    sets = np.arange(1 << len(linked))[:, None] >> np.arange(len(linked)) & 1
    weight = np.where(sets, (prior * keep)[linked], 1.0 - prior[linked]).prod(axis=1)
    if own is not None:
        weight = weight * np.where(sets & own[linked], (1.0 - model.strength[linked]).prod(axis=1), 1.0).prod(axis=1)
    acts = sets if own is None else sets & ~own[linked]
    absent = np.where(acts[:, :, None], 1.0 - model.strength[linked], 1.0).prod(axis=1) * (1.0 - model.leak)
    weight = weight * np.where(counted, 1.0 - absent, 1.0).prod(axis=1)
    rest = np.delete(prior * keep + 1.0 - prior, linked).prod()
    joint = weight.sum() * prior * keep / (prior * keep + 1.0 - prior)
    joint[linked] = sets.T @ weight
    return weight.sum() * rest, joint * rest


def without_shift(model, left):
    """The same model where nothing is known of one circumstance."""
    kept = [number for number in range(len(model.shift_keys)) if number != left]
    keys, axes = tuple(model.shift_keys[n] for n in kept), tuple(model.axes[n] for n in kept)
    return replace(model, shifts=model.shifts[kept], shift_keys=keys, axes=axes)


def test_all_that_one_run_of_the_network_tells_equals_brute_force() -> None:
    """Reasons, what nothing explains, and whether a living cause did it: every shortcut against enumeration."""
    case = Evidence(
        crop="okra",
        stage="fruiting",
        seen=seen(
            "whole_plant.limp_midday", "whole_plant.limp_at_dawn", "leaf.scorched_margins_old", "leaf.sun_bleached"
        ),
        not_seen=seen(*LINKED["okra"][20:26], looked=4),
        circumstances=dict.fromkeys(("scattered_plants", "neighbours_in_a_row", "most_plants"), True),
    )
    model = build_model(KNOWLEDGE, case)
    assert np.count_nonzero((model.strength > 0.0).sum(axis=1) > 1) >= 2
    assert model.axes.count("layout") == 2
    living = np.array([cause.living for cause in model.causes])
    variants = solve_variants(model, np.stack([living, ~living]))
    keep, all_in = model.miss.prod(axis=1), np.ones(4, dtype=bool)
    rows = [(all_in, model.prior(), keep)]
    rows += [(np.arange(4) != left, model.prior(), keep) for left in range(4)]
    rows += [(all_in, model.prior(), np.delete(model.miss, left, axis=1).prod(axis=1)) for left in range(6)]
    rows += [(all_in, without_shift(model, left).prior(), keep) for left in range(len(model.shift_keys))]
    rows += [(all_in, np.where(group, 0.0, model.prior()), keep) for group in (living, ~living)]
    for number, (counted, prior, weight) in enumerate(rows):
        evidence, joint = enumerated(model, counted, prior, weight)
        assert variants.solved.evidence[number] == pytest.approx(evidence, rel=1e-9)
        assert variants.solved.joint[number] / evidence == pytest.approx(joint / evidence, abs=1e-9)
    everything = enumerated(model, all_in, model.prior(), keep)[0]
    for finding, alone in enumerate(variants.by_itself()):
        silent, _ = enumerated(model, np.arange(4) != finding, model.prior(), keep * (1.0 - model.strength[:, finding]))
        assert alone == pytest.approx(silent * model.leak[finding] / everything, abs=1e-9)
    innocent, _ = enumerated(model, all_in, model.prior(), keep, own=living)
    assert rank(KNOWLEDGE, case).called_sick == pytest.approx(1.0 - innocent / everything, abs=1e-9)


@given(data=st.data())
def test_a_sign_of_one_cause_alone_never_lowers_it_and_its_absence_never_raises_it(data) -> None:
    crop = data.draw(st.sampled_from(CROPS))
    owners: dict[str, list[str]] = {}
    for cause in KNOWLEDGE.causes_of(crop):
        for clue in cause.clues:
            if clue.symptom and clue.how_often != "never" and (not clue.crops or crop in clue.crops):
                owners.setdefault(clue.symptom, []).append(cause.id)
    excluded = {s for cause in KNOWLEDGE.causes_of(crop) for s in cause.excludes}
    alone = sorted(s for s, causes in owners.items() if len(causes) == 1 and s not in excluded)
    sign = data.draw(st.sampled_from(alone))
    base = chance(rank(KNOWLEDGE, Evidence(crop=crop)), owners[sign][0])
    with_it = rank(KNOWLEDGE, Evidence(crop=crop, seen=seen(sign)))
    without = rank(KNOWLEDGE, Evidence(crop=crop, not_seen=seen(sign)))
    if with_it.stop is None:
        assert chance(with_it, owners[sign][0]) >= base - 1e-12
    assert chance(without, owners[sign][0]) <= base + 1e-12


def test_looking_at_few_plants_speaks_less_against_a_cause_than_looking_at_many() -> None:
    def after(n: int) -> float:
        return chance(rank(KNOWLEDGE, Evidence(crop="cucumber", not_seen={"leaf.white_powder": Count(n)})), CAUSE)

    CAUSE = next(
        c.id
        for c in KNOWLEDGE.causes_of("cucumber")
        if any(
            clue.symptom == "leaf.white_powder" and clue.how_often in ("usually", "almost_always") for clue in c.clues
        )
    )
    assert after(0) > after(1) > after(3) > after(20)
    assert after(0) == pytest.approx(chance(rank(KNOWLEDGE, Evidence(crop="cucumber")), CAUSE))


def test_nothing_seen_names_no_cause() -> None:
    ranking = rank(KNOWLEDGE, Evidence(crop="beet"))
    assert ranking.cannot_tell is not None and ranking.called_sick is None
    assert ranking.rule_out_first == ()


def test_circumstances_move_a_cause_within_bounds_only() -> None:
    for crop in CROPS:
        everything = dict.fromkeys(KNOWLEDGE.circumstances, True)
        weather = dict.fromkeys(KNOWLEDGE.conditions, True)
        model = build_model(KNOWLEDGE, Evidence(crop=crop, circumstances=everything, conditions=weather))
        bounded = [row for row, (kind, _) in enumerate(model.shift_keys) if kind != "excludes"]
        assert np.abs(model.shifts[bounded]).max() <= SHIFT_LIMIT + 1e-12
        moved = np.log(model.prior() / (1 - model.prior())) - model.base
        assert np.abs(moved).max() <= TOTAL_SHIFT_LIMIT + 1e-9


def test_a_finding_that_no_cause_of_the_crop_shows_is_named_as_unexplained() -> None:
    stranger = next(s.id for s in KNOWLEDGE.symptoms_of("beet") if s.id not in LINKED["beet"] and s.kind != "quality")
    ranking = rank(KNOWLEDGE, Evidence(crop="beet", seen=seen(stranger, LINKED["beet"][0])))
    assert stranger in ranking.unexplained


def test_called_sick_is_one_minus_the_chance_that_no_living_cause_made_any_finding() -> None:
    """Against enumeration over every combination of a small made-up net would need other files; so by two bounds."""
    heat = rank(
        KNOWLEDGE,
        Evidence(
            crop="cucumber",
            seen=seen("fruit.pinched_blossom_end", "fruit.seeds_missing_where_thin"),
            conditions={"hot_days_at_flowering": True, "hot_nights_at_flowering": True},
        ),
    )
    mildew = rank(KNOWLEDGE, Evidence(crop="cucumber", seen=seen("leaf.white_powder", "leaf.white_powder_beneath")))
    assert heat.called_sick is not None and heat.called_sick < 0.2
    assert mildew.called_sick is not None and mildew.called_sick > 0.9


@pytest.mark.parametrize("crop", CROPS)
def test_the_gain_of_a_question_is_never_negative_and_asked_signs_are_not_asked_again(crop) -> None:
    asked = Evidence(crop=crop, seen=seen(*LINKED[crop][:2]), not_seen=seen(*LINKED[crop][2:4]))
    looks = next_looks(KNOWLEDGE, asked, most=500)
    assert all(look.gain_bits >= 0.0 for look in looks)
    assert not {look.symptom.id for look in looks} & set(LINKED[crop][:4])
    assert [look.worth for look in looks] == sorted((look.worth for look in looks), reverse=True)


def test_the_gain_about_each_cause_equals_the_printed_figures() -> None:
    """Constructed net, answers by enumeration: the gain about each cause by itself."""
    prior = np.array([0.20, 0.15, 0.30])
    leak = np.array([0.02, 0.01, 0.01, 0.05])
    links = np.array([[0.90, 0.80, 0, 0.10], [0.85, 0.05, 0.70, 0], [0.10, 0, 0, 0.75]])
    printed = {0: (0.294511, 0.179267, 0.003377), 1: (0.423840, 0.001060, 0.0), 3: (0.003026, 0.0, 0.365006)}

    def bits(p):
        p = np.clip(p, 1e-15, 1 - 1e-15)
        return -(p * np.log2(p) + (1 - p) * np.log2(1 - p))

    for finding, expected in printed.items():
        keep = np.vstack([np.ones(3), 1 - links[:, finding]])
        empty = np.zeros((2, 0), dtype=bool)
        solved = solve(np.repeat(prior[None], 2, 0), keep, np.zeros((3, 0)), np.zeros(0), empty)
        no = (1 - leak[finding]) * solved.evidence[1] / solved.evidence[0]
        given_no = solved.marginals[1]
        given_yes = (prior - no * given_no) / (1 - no)
        gain = bits(prior) - no * bits(given_no) - (1 - no) * bits(given_yes)
        assert gain == pytest.approx(expected, abs=1e-6)


def test_eighteen_findings_are_still_summed_exactly() -> None:
    ranking = rank(KNOWLEDGE, Evidence(crop="tomato", seen=seen(*LINKED["tomato"][:18])))
    assert ranking.left_out == () and ranking.left_out_log_odds == 0.0


def test_findings_too_many_to_sum_are_named_and_what_they_could_do_is_bounded(monkeypatch) -> None:
    """The same case with room for two open findings at a time and with room for all: the bound must hold."""
    case = Evidence(crop="tomato", seen=seen(*LINKED["tomato"][20:40]))
    exact = rank(KNOWLEDGE, case)
    monkeypatch.setattr("scout.diagnosis.network.WIDEST", 2)
    rough = rank(KNOWLEDGE, case)
    assert exact.left_out == () and rough.left_out
    assert set(rough.left_out) <= set(rough.unexplained)
    for ranked in exact.causes:
        p, q = ranked.probability, chance(rough, ranked.cause.id)
        moved = abs(np.log(p / (1 - p)) - np.log(q / (1 - q)))
        assert moved <= rough.left_out_log_odds + 1e-9
