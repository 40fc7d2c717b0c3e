"""Ids that two devices can make apart."""

import uuid

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.store.ids import id_after, new_id, weather_id

TEN = st.binary(min_size=10, max_size=10)


def test_an_id_equals_the_worked_example_of_the_standard() -> None:
    """RFC 9562, appendix A.6: unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F."""
    chance = (0xCC3 << 62 | 0x18C4DC0C0C07398F).to_bytes(10)
    assert new_id(0x017F22E279B0, chance) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"


@given(st.integers(0, 2**48 - 1), TEN)
def test_every_id_is_of_version_seven(now_ms: int, chance: bytes) -> None:
    """Version and variant are where RFC 9562, section 5.7 puts them."""
    made = uuid.UUID(new_id(now_ms, chance))
    assert (made.version, made.variant, made.int >> 80) == (7, uuid.RFC_4122, now_ms)


def test_impossible_times_and_short_chance_are_refused() -> None:
    """48 bits of milliseconds, ten bytes of chance."""
    for now_ms, chance in ((-1, bytes(10)), (2**48, bytes(10)), (0, bytes(9))):
        with pytest.raises(ValueError):
            new_id(now_ms, chance)


@given(st.lists(st.tuples(st.integers(1000, 1003), TEN), min_size=2, max_size=30))
def test_ids_rise_also_within_a_millisecond_and_when_the_clock_steps_back(ticks: list[tuple[int, bytes]]) -> None:
    """RFC 9562, section 6.2, method 2."""
    last: str | None = None
    made = []
    for now_ms, chance in ticks:
        last = id_after(last, now_ms, chance)
        made.append(last)
    assert made == sorted(set(made)) and all(uuid.UUID(one).version == 7 for one in made)


def test_an_id_after_a_full_millisecond_moves_to_the_next() -> None:
    """All random bits set: counting up carries into the time."""
    full = new_id(1000, b"\xff" * 10)
    after = id_after(full, 1000, bytes(10))
    assert after > full and uuid.UUID(after).int >> 80 == 1001


def test_a_weather_id_is_a_name_in_the_garden() -> None:
    """RFC 9562, section 5.5: two devices agree; another garden, day, kind or source does not."""
    garden = "0198b2f0-0000-7000-8000-0000000000aa"
    base = (garden, "home", "2026-07-20", "observed", "measured")
    made = weather_id(*base)
    assert made == weather_id(*base) and uuid.UUID(made).version == 5
    assert made == str(uuid.uuid5(uuid.UUID(garden), "home\x1f2026-07-20\x1fobserved\x1fmeasured"))
    others = [(*base[:n], base[n][:-1] + "1", *base[n + 1 :]) for n in range(5)]
    assert len({weather_id(*other) for other in others} | {made}) == 6
