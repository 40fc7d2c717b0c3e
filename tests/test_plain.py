import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.plain import clean_text, shortened


@pytest.mark.parametrize(
    ("text", "clean"),
    [
        ("plain  text ", "plain text"),
        ("\x1b[31mred\x1b[0m", "red"),
        ("\x9b31mred", "red"),
        ("\x1b]0;title\x07x", "x"),
        ("\x1b]8;;http://a\x1b\\link\x1b]8;;\x1b\\", "link"),
        ("a\x00b\x07c\x7fd", "abcd"),
        ("a\u202eb\u2066c\u200ed\ufeffe", "abcde"),
        ("cafe\u0301", "café"),
        ("[/z] <b> {x} %s ' --", "[/z] <b> {x} %s ' --"),
        ("one\r\ntwo\u2028three\tfour", "one two three four"),
        ("\ud800x", "x"),
        ("👩\u200d🌾", "👩\u200d🌾"),
        ("", ""),
    ],
)
def test_text_from_outside_is_made_safe_and_stays_what_it_says(text: str, clean: str) -> None:
    assert clean_text(text) == clean


def test_line_breaks_stay_where_they_are_wanted() -> None:
    assert clean_text(" one \r\n\r\n two\x85three\n", keep_newlines=True) == "one\n\ntwo\nthree"


def test_accents_piled_up_to_cover_other_lines_are_cut() -> None:
    assert len(clean_text("q" + "\u0335" * 500)) < 20


def test_a_long_text_is_shortened_for_a_sentence() -> None:
    assert shortened("x" * 100, 10) == "x" * 9 + "…" and shortened("short", 10) == "short"


_ODD = st.sampled_from("\x1b\x9b[]31m\u202e\u0301e\u0300\n\r\t \u2028")


@given(st.text(st.one_of(st.characters(), _ODD)), st.booleans())
def test_cleaning_twice_changes_nothing_and_leaves_no_control(text: str, keep: bool) -> None:
    clean = clean_text(text, keep_newlines=keep)
    assert clean_text(clean, keep_newlines=keep) == clean
    assert unicodedata.is_normalized("NFC", clean)
    assert not any(unicodedata.category(c) in ("Cc", "Cs") and not (keep and c == "\n") for c in clean)
