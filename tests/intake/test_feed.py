"""A feed is asked once, at its one address, and believed only as far as a weather file is."""

import socket
from collections.abc import Iterator

import pytest

from scout.errors import BadInput
from scout.intake.feed import Address, read_answer

from ..feed_server import DAYS, feed_server


@pytest.fixture(scope="module")
def served() -> Iterator[tuple[str, list[str]]]:
    with feed_server() as server:
        yield server


def test_csv_comes_as_it_was_sent(served) -> None:
    answer = Address(f"{served[0]}/days.csv").ask()
    assert (answer.text, answer.issued_at) == (DAYS.decode(), None)


def test_json_becomes_a_weather_file_with_its_time_of_issue(served) -> None:
    answer = Address(f"{served[0]}/coming.json").ask()
    assert answer.text.splitlines() == ["time,temp_c,rh_pct", "2026-07-22T13:00,33.5,55", "2026-07-22T14:00,34,"]
    assert answer.issued_at == "2026-07-22T06:00"


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("/failing", "answered 503; nothing was taken in. Try again later"),
        ("/gone", "answered 404; nothing was taken in. Mend the address"),
        ("/broken.json", "broken JSON"),
        ("/other.json", 'no "rows"'),
        ("/bytes.csv", "no UTF-8"),
    ],
)
def test_a_bad_answer_is_one_sentence(served, path, said) -> None:
    with pytest.raises(BadInput) as refused:
        Address(served[0] + path).ask()
    assert said in str(refused.value) and "\n" not in str(refused.value)


def test_a_redirect_is_not_followed(served) -> None:
    base, asked = served
    asked.clear()
    with pytest.raises(BadInput, match="another address, which is not followed"):
        Address(f"{base}/moved").ask()
    assert asked == ["/moved"]


def test_a_feed_that_does_not_answer_is_given_up(served) -> None:
    with pytest.raises(BadInput, match=r"did not answer within 0\.2 seconds"):
        Address(f"{served[0]}/slow", timeout_s=0.2).ask()


def test_more_than_the_limit_is_refused(served) -> None:
    with pytest.raises(BadInput, match="more than 20 bytes"):
        Address(f"{served[0]}/days.csv", most_bytes=20).ask()
    assert Address(f"{served[0]}/days.csv", most_bytes=len(DAYS)).ask().text == DAYS.decode()


def test_nobody_at_the_address_is_said() -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with pytest.raises(BadInput, match="could not be reached"):
        Address(f"http://127.0.0.1:{port}/days.csv", timeout_s=2).ask()


@pytest.mark.parametrize(
    "address", ["http://weather.example/days.csv", "file:///etc/passwd", "ftp://weather.example/x", "days.csv", ""]
)
def test_only_https_is_asked_except_on_this_machine(address) -> None:
    with pytest.raises(BadInput, match="https://"):
        Address(address).ask()


@pytest.mark.parametrize("body", [b"{" * 100_000, b'{"rows": []}', b'{"rows": [1]}', b'{"rows": {"time": 1}}'])
def test_json_of_another_shape_is_refused(body) -> None:
    with pytest.raises(BadInput):
        read_answer(body, "application/json")
