import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.decimals import read_count, read_decimal


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1,5", 1.5),
        ("1.5", 1.5),
        (" 12 ", 12.0),
        ("-0,5", -0.5),
        ("\u22123.25", -3.25),
        ("+4", 4.0),
        (",5", 0.5),
        (".5", 0.5),
        ("5.", 5.0),
        ("0,125", 0.125),
        ("21.375", 21.375),
        ("1234,567", 1234.567),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("1,234,567", 1234567.0),
        ("1.234.567,25", 1234567.25),
        ("1\u202f234,5", 1234.5),
        ("1'234.5", 1234.5),
    ],
)
def test_a_number_is_read_as_it_was_meant(text: str, number: float) -> None:
    assert read_decimal(text) == number


def test_a_decimal_comma_never_makes_fifteen() -> None:
    assert read_decimal("1,5") != 15


def test_a_comma_before_three_digits_is_asked_about_and_both_readings_are_named() -> None:
    with pytest.raises(BadInput, match=r"“1,234” could be 1\.234 or 1234"):
        read_decimal("1,234")


def test_a_known_decimal_sign_settles_three_digits() -> None:
    assert read_decimal("21,375", sign=",") == 21.375
    with pytest.raises(BadInput, match="another decimal sign"):
        read_decimal("1,234", sign=".")


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "nan",
        "inf",
        "-inf",
        "1_0",
        "0x1F",
        "1e3",
        "1,2,3",
        "1.2.3",
        "1,23,456",
        "12,3456,789",
        "1 2",
        "34 221",
        "--1",
        "1-",
        "٣",
        "１",
        "½",
        "5 mm",
        "1.234.5",
        "1,234,5",
        ".",
        ",",
        "+",
        "1" * 40,
        "[/z]",
        "\x1b[31m1",
    ],
)
def test_what_is_no_plain_number_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_decimal(text)
    assert str(caught.value).endswith(".") and "\n" not in str(caught.value) and "\x1b" not in str(caught.value)


@pytest.mark.parametrize("text", ["1.5", "-1", "1_0", "", "x", "٣", "1" * 10])
def test_a_count_is_digits_only(text: str) -> None:
    with pytest.raises(BadInput, match="whole number"):
        read_count(text)


@given(st.decimals(min_value=-9999, max_value=9999, places=2), st.sampled_from(".,"))
def test_two_decimals_come_back_with_either_sign(number: object, sign: str) -> None:
    assert read_decimal(str(number).replace(".", sign)) == float(str(number))


@given(st.text(max_size=12))
def test_any_text_is_a_finite_number_or_a_sentence(text: str) -> None:
    try:
        number = read_decimal(text)
    except BadInput:
        return
    assert abs(number) < 1e24


@given(st.integers(0, 10**8), st.integers(0, 99))
def test_grouped_thousands_come_back(whole: int, cents: int) -> None:
    text = f"{whole:,}.{cents:02d}"
    assert read_decimal(text) == float(f"{whole}.{cents:02d}")
    assert read_decimal(text.translate(str.maketrans(",.", ".,"))) == float(f"{whole}.{cents:02d}")
