"""Text from outside is kept literally, but for what could harm a terminal or a sort."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.store.checking import checked
from scout.store.tables_garden import Bed
from scout.store.text import clean_text

# Escape sequences: ECMA-48 (5th ed. 1991), sections 5.4 (CSI) and 5.6 (control strings).
ESCAPES = [
    ("\x1b[31mred\x1b[0m", "red"),
    ("\x1b[2J\x1b[Hgone", "gone"),
    ("\x9b31mred", "red"),
    ("\x1b]0;title\x07after", "after"),
    ("\x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\", "link"),
    ("\x1bP1$r0m\x1b\\dcs", "dcs"),
    ("\x1bcreset", "reset"),
    ("\x1b[31", "31"),
    ("bell\x07 back\x08 nul\x00", "bell back nul"),
]


@pytest.mark.parametrize(("raw", "kept"), ESCAPES)
def test_terminal_escapes_go_and_the_words_stay(raw: str, kept: str) -> None:
    """Nothing that a terminal would obey is left."""
    assert clean_text(raw) == kept


def test_characters_that_turn_text_around_go() -> None:
    """UAX #9, table 4: embeddings, overrides, isolates, marks."""
    turned = "ab\u202ecd\u202c\u2066ef\u2069\u200e\u200f\u061c"
    assert clean_text(turned) == "abcdef"


def test_text_is_composed() -> None:
    """Unicode UAX #15: NFC of e + combining acute is one character."""
    assert clean_text("cafe\u0301") == "caf\u00e9"


def test_marks_of_other_languages_of_text_stay_as_they_are() -> None:
    """Markup, quotes, format signs and formulas are the grower's own words."""
    for own in ("[b]bold[/z]", "<i>x</i>", "'; DROP TABLE bed; --", "{0} %s $HOME", "=1+1", "a\\n", "5 °C, 3 × ½"):
        assert clean_text(own) == own


def test_emoji_with_joiners_stay_whole() -> None:
    """A farmer is two characters and a joiner; a flag is two letters."""
    for own in ("👩‍🌾", "🍅", "🏳️‍🌈", "नमस्ते", "می‌خواهم"):
        assert clean_text(own) == own


def test_line_ends_are_one_kind_and_vanish_from_names() -> None:
    """Notes keep lines, names are one line."""
    assert clean_text("a\r\nb\rc\u2028d\x85e") == "a\nb\nc\nd\ne"
    assert clean_text("a\r\nb\tc", lines=False) == "a b c"


def test_a_half_character_cannot_reach_the_file() -> None:
    """An unpaired surrogate cannot be written as UTF-8."""
    assert clean_text("a\ud83cb").encode() == b"ab"


def test_a_note_of_ten_thousand_characters_is_kept_whole() -> None:
    """The limit counts what is left after cleaning."""
    note = "é" * 10_000
    assert checked(Bed, {"name": "x", "position": 1, "note": "\x1b[1m" + note}).note == note


@given(st.text())
def test_cleaning_twice_changes_nothing_and_leaves_nothing_harmful(text: str) -> None:
    """Also where taking one thing away joins two halves of another."""
    once = clean_text(text)
    assert clean_text(once) == once
    assert not any(unicodedata.category(c) in ("Cc", "Cs") and c != "\n" for c in once)
    once.encode()


@given(
    st.lists(
        st.sampled_from(["\x1b", "[", "]", "3", "m", "\x9b", "\x07", "\\", "P", "\u202e", "e", "\u0301", "\n", " "])
    )
)
def test_no_mixture_of_pieces_forms_an_escape(pieces: list[str]) -> None:
    """The pieces of escapes in any order."""
    once = clean_text("".join(pieces))
    assert clean_text(once) == once and "\x1b" not in once and "\x9b" not in once
