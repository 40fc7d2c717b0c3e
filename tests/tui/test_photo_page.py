"""Pictures at a stop: taken in by path or from the inbox, drawn in half cells, gone ones said in a sentence."""

from PIL import Image

from scout import paths
from scout.services import photos, walk

from .conftest import PHONE
from .hand import stop_at

RED, BLUE = (200, 30, 30), (30, 30, 200)


def picture(file, size=(400, 400)):
    """The upper half red, the lower half blue."""
    image = Image.new("RGB", size, RED)
    image.paste(BLUE, (0, size[1] // 2, size[0], size[1]))
    image.save(file, quality=95)
    return file


async def test_a_picture_is_taken_in_by_its_path_and_drawn(opening, store, tmp_path) -> None:
    file = picture(tmp_path / "leaf.jpg")
    async with opening(size=PHONE) as hand:
        await stop_at(hand, "Long bed")
        await hand.press("o", "1")
        await hand.type(str(file))
        assert hand.name == "PhotoPage" and "Picture taken in." in hand.said and len(hand.rows) == 2
        await hand.press("1")
        assert hand.name == "PicturePage"
        await hand.pilot.pause()
        drawn = [strip for strip in hand.app.screen._compositor.render_strips() if "▀" in strip.text]
        assert len(drawn) >= 12, "the picture fills most of a phone"
        colours = [next(s.style.color for s in strip if "▀" in s.text).triplet for strip in (drawn[1], drawn[-2])]
        assert max(colours[0]) == colours[0].red and max(colours[1]) == colours[1].blue
        await hand.press("escape", "escape")
        assert hand.name == "StopPage"
    stop = walk.current_stop(store)
    assert len(photos.photos_of(store, "stop", stop.id)) == 1


async def test_a_picture_in_the_inbox_is_offered(opening, store) -> None:
    inbox = paths.inbox(store.root)
    inbox.mkdir(exist_ok=True)
    picture(inbox / "IMG [1].jpg")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("o")
        await hand.choose("IMG [1].jpg")
        assert hand.rows[0].startswith("Look at 1:")


async def test_a_wrong_path_stays_to_be_mended(opening, store, tmp_path) -> None:
    (tmp_path / "notes.jpg").write_text("no picture", encoding="utf-8")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("o", "1")
        await hand.type(str(tmp_path / "notes.jpg"))
        assert hand.name == "TextPage" and hand.said
        await hand.press("escape")
        assert hand.rows == ["Take in by its path"]


async def test_a_picture_gone_from_disk_is_said(opening, store, tmp_path) -> None:
    file = picture(tmp_path / "leaf.jpg")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("o", "1")
        await hand.type(str(file))
        stop = walk.current_stop(store)
        photos.photos_of(store, "stop", stop.id)[0].file.unlink()
        before = hand.said
        await hand.press("1")
        await hand.pilot.pause()
        assert hand.name == "PicturePage" and hand.said != before
        await hand.press("escape")
        assert hand.name == "PhotoPage"


async def test_a_picture_is_erased_after_one_question(opening, store, tmp_path) -> None:
    file = picture(tmp_path / "neighbour.jpg")
    async with opening(size=PHONE) as hand:
        await stop_at(hand, "Long bed")
        await hand.press("o", "1")
        await hand.type(str(file))
        await hand.press("1", "x")
        assert "It cannot be undone." in hand.text and hand.rows == ["Keep it", "Erase it for good"]
        await hand.press("1")
        assert hand.name == "PicturePage"
        await hand.press("x", "2")
        assert hand.name == "PhotoPage" and "Erased for good. The file it was taken from" in hand.said
        assert hand.rows == ["Take in by its path"]
    assert list(paths.photos(store.root).iterdir()) == []
