"""Long work in the app: it shows how far it is, answers with what it gave, and leaves nothing when it is stopped."""

import threading

from scout.errors import BadInput
from scout.services.weather import days_between
from scout.services.weather_files import look_into, take_in
from scout.tui.screens.work import WorkPage


async def test_stopped_work_answers_with_nothing_and_leaves_nothing(opening, store, tmp_path) -> None:
    file = tmp_path / "days.csv"
    file.write_text("date,tmax_c,tmin_c\n2026-07-20,33,21\n", encoding="utf-8")
    found = look_into(store, file)
    half, go_on = threading.Event(), threading.Event()
    answers: list[object] = []

    def work(told):
        def slow(share: float) -> None:
            half.set()
            go_on.wait(30)
            told(share)

        return take_in(store, found, slow)

    async with opening() as hand:
        hand.app.push_page(WorkPage("Writing", work), answers.append)
        await hand.until(half.is_set)
        assert hand.name == "WorkPage" and hand.feet == ["Stop"] and "[...................." in hand.text
        await hand.press("x")
        assert "Stopping" in hand.text
        go_on.set()
        await hand.until(lambda: hand.name != "WorkPage")
        assert answers == [None] and "Stopped; nothing was written." in hand.said
    assert days_between(store, store.today.replace(day=20), store.today) == ()


async def test_what_goes_wrong_in_the_work_is_said(opening) -> None:
    def work(told):
        told(0.5)
        raise BadInput("The file is gone.")

    async with opening() as hand:
        hand.app.push_page(WorkPage("Reading", work))
        await hand.until(lambda: "The file is gone." in hand.said)
        await hand.until(lambda: hand.name != "WorkPage")
