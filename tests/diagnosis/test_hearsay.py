"""What is asked, guessed, wished, or told of another time is offered and never sure. Invented sentences."""

import pytest

from scout.diagnosis.words import match_words, sure_matches

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()

# (crop, words, the sign they speak of and do not report)
HEARSAY = [
    ("kale", "Is it slugs?", "insect.slugs"),
    ("cucumber", "Are the ants to blame, or is it aphids", "insect.aphids"),
    ("sweet_pepper", "leaves look dull, maybe spider mites", "insect.mites_moving"),
    ("tomato", "my neighbour wonders if there is a hornworm about", "insect.hornworm"),
    ("okra", "I think it could be whitefly", "insect.whitefly"),
    ("cabbage", "fleece went on in May to keep off the caterpillars", "insect.caterpillars"),
    ("lettuce", "looked for slugs with a torch", "insect.slugs"),
    ("eggplant", "Last summer flea beetles made shot holes everywhere. They came back twice", "insect.flea_beetles"),
    ("summer_squash", "it used to have squash bugs", "insect.squash_bug"),
    ("potato", "water them whenever the soil is dry", "soil_dry_5cm"),
    ("basil", "it was doing great until Tuesday", "whole_plant.firm_growing"),
    ("cabbage", "we'll cover it with fleece", "covered_net"),
    ("spinach", "it could either be hungry, or slugs", "insect.slugs"),
    ("carrot", "next time I want to thin them, I'll mulch with straw", "mulched"),
]


@pytest.mark.parametrize(("crop", "words", "spoken_of"), HEARSAY)
def test_what_is_no_report_of_today_is_never_sure(crop, words, spoken_of) -> None:
    assert spoken_of not in {m.id for m in sure_matches(KNOWLEDGE, crop, words)}


@pytest.mark.parametrize(("crop", "words", "spoken_of"), HEARSAY[:5])
def test_a_question_or_a_guess_is_still_offered(crop, words, spoken_of) -> None:
    assert spoken_of in {m.id for m in match_words(KNOWLEDGE, crop, words) if m.seen}


# The same words as a report.
REPORTS = [
    ("kale", "What can I do? There are slugs on it", "insect.slugs"),
    ("kale", "Why are there slugs on it", "insect.slugs"),
    ("eggplant", "Last summer was fine. Now there are flea beetles on it", "insect.flea_beetles"),
    ("tomato", "more yellow leaves at the bottom than last year", "leaf.yellow_lowest_only"),
    ("tomato", "grew tomatoes here last year", "same_family_last_year"),
    ("cucumber", "white powder on the leaves, is that bad?", "leaf.white_powder"),
    ("lettuce", "looks as if dusted, with aphids in the heart", "insect.aphids"),
    ("cabbage", "to keep the moths off I have it under fleece", "covered_net"),
]


@pytest.mark.parametrize(("crop", "words", "reported"), REPORTS)
def test_a_report_beside_a_question_or_another_year_stays_sure(crop, words, reported) -> None:
    assert reported in {m.id for m in sure_matches(KNOWLEDGE, crop, words) if m.seen}
