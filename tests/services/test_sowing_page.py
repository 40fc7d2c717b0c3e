"""The crop's page tells how long seed takes in soil of which warmth, and where nothing comes up."""

from scout.services.vocabulary import shown


def page(knowledge, crop: str) -> str:
    return "\n".join(shown(knowledge, crop))


def test_days_from_seed_to_seedling_as_printed(knowledge) -> None:
    # Harrington & Minges 1954: tomato 43, 14, 8, 6, 6, 9 days at 50 to 95 °F; none at 32 and 41 or at 104 °F
    text = page(knowledge, "tomato")
    assert "43 days at 10 °C (50 °F), 14 days at 15 °C (59 °F)" in text and "9 days at 35 °C (95 °F)" in text
    assert "Little comes up at 5 °C and less or at 40 °C and more." in text


def test_a_temperature_nobody_tried_is_not_called_too_hot(knowledge) -> None:
    text = page(knowledge, "cucumber")
    assert "and more" not in text and "Little comes up at 10 °C and less." in text


def test_a_crop_that_was_not_tested_says_nothing_of_seed(knowledge) -> None:
    assert "From seed to seedling" not in page(knowledge, "sweet_potato")
