import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.case_file import Case, CaseDay, CaseError, read_cases

FULL = {
    "crop": "cucumber",
    "stage": "fruiting",
    "on": "2026-07-20",
    "seen": ["fruit.tapered"],
    "not_seen": ["leaf.mosaic"],
    "circumstances": {"container": True, "mulched": False},
    "looked": 6,
    "affected": 4,
    "weather": [{"date": "2026-07-18", "tmax_c": 35.5, "tmin_c": 24, "rain_mm": 0, "wet_h": 2, "rh_mean_pct": 60}],
    "words": "narrow at one end\nno spots",
}


def _one(**changes: object) -> Case | CaseError:
    found = read_cases(json.dumps({key: value for key, value in (FULL | changes).items() if value is not ...}))
    assert not found.is_list and len(found.items) == 1
    return found.items[0]


def _error(**changes: object) -> str:
    found = _one(**changes)
    assert isinstance(found, CaseError)
    assert found.error.endswith(".") and "\n" not in found.error and len(found.error) < 300
    return found.error


def test_every_key_of_a_case_is_read() -> None:
    case = _one()
    assert isinstance(case, Case)
    assert (case.crop, case.stage, case.on) == ("cucumber", "fruiting", date(2026, 7, 20))
    assert (case.seen, case.not_seen) == (("fruit.tapered",), ("leaf.mosaic",))
    assert case.circumstances == {"container": True, "mulched": False}
    assert (case.looked, case.affected, case.words) == (6, 4, "narrow at one end\nno spots")
    assert case.weather == (
        CaseDay(date=date(2026, 7, 18), tmax_c=35.5, tmin_c=24.0, rain_mm=0.0, wet_h=2.0, rh_mean_pct=60.0),
    )


def test_every_key_but_the_crop_may_be_left_out() -> None:
    found = read_cases('{"crop": "cucumber"}').items[0]
    assert isinstance(found, Case)
    assert (found.seen, found.not_seen, found.weather, found.words) == ((), (), (), "")
    assert found.looked is found.affected is found.on is found.stage is None


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"crop": ...}, "“crop” is missing"),
        ({"crop": ""}, "“crop”: must not be empty"),
        ({"crop": None}, "“crop” must be text"),
        ({"crop": 5}, "“crop” must be text"),
        ({"sen": []}, "“sen” is not a key here; did you mean “seen”"),
        ({"stage": "old"}, "“stage” must be"),
        ({"on": "20/7/2026"}, "“on” must be a date like 2026-07-01"),
        ({"on": "2026-02-30"}, "“on” must be a date"),
        ({"on": "0026-07-20"}, "check the year"),
        ({"seen": "fruit.tapered"}, "“seen” must be a list"),
        ({"seen": [1]}, "“seen” must be text"),
        ({"seen": ["leaf.mosaic"]}, "“leaf.mosaic” is in seen and in not_seen"),
        ({"circumstances": {"container": 1}}, "“container” must be true or false"),
        ({"circumstances": {"container": "yes"}}, "“container” must be true or false"),
        ({"circumstances": []}, "“circumstances”"),
        ({"looked": 3}, "affected (4) is more than looked (3)"),
        ({"looked": -1}, "“looked”: must be at least 0"),
        ({"looked": "6"}, "“looked” must be a whole number"),
        ({"looked": 6.5}, "“looked” must be a whole number"),
        ({"looked": True}, "“looked” must be a whole number"),
        ({"weather": [{"tmax_c": 30}]}, "weather 1: “date” is missing"),
        (
            {"weather": [{"date": "2026-07-01", "tmax": 30}]},
            "weather 1: “tmax” is not a key here; did you mean “tmax_c”",
        ),
        ({"weather": [{"date": "2026-07-01", "tmax_c": 99}]}, "weather 1: “tmax_c”: must be at most 60"),
        ({"weather": [{"date": "2026-07-01", "tmax_c": "31,5"}]}, "“tmax_c” must be a number"),
        ({"weather": [{"date": "2026-07-01", "tmax_c": 9, "tmin_c": 10}]}, "tmin_c 10 is above tmax_c 9"),
        ({"weather": [{"date": "2026-07-01"}, {"date": "2026-07-01"}]}, "weather has 2026-07-01 twice"),
        ({"words": "x" * 3000}, "“words”: must have at most 2000 characters"),
        ({"words": 5}, "“words” must be text"),
    ],
)
def test_a_fault_is_named_with_its_key(changes: dict[str, object], said: str) -> None:
    assert said in _error(**changes)


def test_words_are_cleaned() -> None:
    case = _one(words="\x1b[31mspots\u202e [/z]\x07")
    assert isinstance(case, Case) and case.words == "spots [/z]"


def test_a_list_is_answered_item_by_item() -> None:
    found = read_cases(json.dumps([{"crop": "tomato"}, {"crop": "tomato", "looked": -1}, 7, {"crop": "beet"}]))
    assert found.is_list
    assert [type(item) for item in found.items] == [Case, CaseError, CaseError, Case]
    second, third = found.items[1:3]
    assert isinstance(second, CaseError) and second.number == 2 and "Case 2: “looked”" in second.error
    assert isinstance(third, CaseError) and "not an object with a crop" in third.error


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is empty"),
        ("[]", "list of cases is empty"),
        ('{"crop": "tomato",\n "looked": 3,}', "line 2, column 14"),
        ("{'crop': 'tomato'}", "line 1, column 2"),
        ('{"crop": "tomato"', "line 1"),
        ('{"crop": "tomato"} {}', "line 1, column 20"),
        ('{"crop": "tomato", "looked": NaN}', "NaN"),
        ('{"crop": "tomato", "looked": ' + "9" * 5000 + "}", "far too long"),
        ('{"crop": "tomato", "crop": "beet"}', "the key “crop” twice"),
        ("[" * 100_000, "nested far too deeply"),
        (json.dumps([{"crop": "tomato"}] * 5001), "at most 5,000"),
    ],
)
def test_text_that_is_no_json_of_cases_is_refused(text: str, said: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_cases(text)
    assert said in str(caught.value) and len(str(caught.value)) < 200


def test_half_a_character_is_refused_and_a_byte_order_mark_is_not() -> None:
    (half,) = read_cases('{"crop": "tom\\ud800ato"}').items
    assert isinstance(half, CaseError) and "half of a character" in half.error
    assert isinstance(read_cases('\ufeff{"crop": "tomato"}').items[0], Case)


@given(
    st.fixed_dictionaries(
        {"crop": st.just("tomato")},
        optional={
            "on": st.dates(date(1950, 1, 1), date(2099, 1, 1)).map(str),
            "seen": st.lists(st.sampled_from(["leaf.a", "leaf.b"]), max_size=2),
            "not_seen": st.lists(st.sampled_from(["leaf.c", "leaf.d"]), max_size=2),
            "looked": st.integers(5, 100),
            "affected": st.integers(0, 5),
            "circumstances": st.dictionaries(st.sampled_from(["container", "mulched"]), st.booleans()),
        },
    )
)
def test_a_good_case_comes_back_as_it_was(written: dict[str, object]) -> None:
    (case,) = read_cases(json.dumps(written)).items
    assert isinstance(case, Case)
    assert json.loads(case.model_dump_json(exclude_unset=True)) == written


@given(
    st.recursive(st.none() | st.booleans() | st.floats() | st.text(), lambda inner: st.dictionaries(st.text(), inner))
)
def test_any_value_for_any_key_is_a_case_or_a_sentence(value: object) -> None:
    for key in ("crop", "seen", "weather", "circumstances", "on", "looked"):
        try:
            (found,) = read_cases(json.dumps({"crop": "tomato"} | {key: value})).items
        except BadInput:
            continue  # NaN and Infinity are no JSON
        assert isinstance(found, Case) or found.error.endswith(".")
