"""Pictures of a stop: attach by path or from the inbox, and look at them as half blocks."""

from pathlib import Path

from rich.color import Color
from rich.style import Style
from rich.text import Text

from scout.services import photos
from scout.services.context import Context
from scout.services.photos import PhotoView
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, TextPage


class PhotoPage(Page[None]):
    """The pictures of one stop."""

    def __init__(self, context: Context, stop_id: str) -> None:
        super().__init__()
        self._garden, self._stop_id = context, stop_id
        self._taken: tuple[PhotoView, ...] = ()
        self._waiting: tuple[Path, ...] = ()

    def view(self) -> View:
        """List the pictures here, those waiting in the inbox, and the way by path."""
        self._taken = photos.photos_of(self._garden, "stop", self._stop_id)
        self._waiting = photos.in_inbox(self._garden)
        rows = [f"Look at {number}: {_label(photo)}" for number, photo in enumerate(self._taken, 1)]
        rows += [f"Take in from the inbox: {file.name}" for file in self._waiting]
        lines = [Line("The place a picture was taken at is never kept.")]
        return View("Pictures", lines, [*rows, "Take in by its path"], ("back",))

    def picked(self, index: int) -> None:
        """Show a picture or take one in."""
        if index < len(self._taken):
            self.app.push_page(PicturePage(self._garden, self._taken[index]))
        elif index < len(self._taken) + len(self._waiting):
            self._take(self._waiting[index - len(self._taken)])
            self.show()
        else:
            page = TextPage("Picture", "Where does the picture lie?", keep=lambda text: self._take(Path(text)))
            self.app.push_page(page)

    def _take(self, file: Path) -> None:
        photos.attach(self._garden, file.expanduser(), "stop", self._stop_id)
        self.say("Picture taken in.")


class PicturePage(Page[None]):
    """One picture, as large as the screen allows."""

    def __init__(self, context: Context, photo: PhotoView) -> None:
        super().__init__()
        self._garden, self._photo = context, photo

    def view(self) -> View:
        """Draw the picture under its label."""
        self.call_after_refresh(self.attempt, self._draw)
        return View(_label(self._photo), actions=("erase", "back"))

    def do_erase(self) -> None:
        """Ask once, since it cannot be undone; then erase the picture and leave."""

        def answered(row: int) -> None:
            if row == 1:
                self._erase()

        question = "Erase this picture for good? It cannot be undone."
        self.ask(ChoicePage("Erase", question, ["Keep it", "Erase it for good"]), answered)

    def _erase(self) -> None:
        from scout.services.photo_erase import STAYS, erase

        same = erase(self._garden, self._photo.id)
        kept = f" The same picture is still kept in {len(same)} more place{'s' * (len(same) > 1)}." if same else ""
        self.say(f"Erased for good.{kept} {STAYS}")
        self.dismiss(None)

    def _draw(self) -> None:
        size = self.app.size
        rows = photos.cells(self._photo.file, max(1, size.width - 2), max(1, size.height - 4))
        text = Text()
        for row in rows:
            for upper, lower in row:
                text.append("▀", Style(color=Color.from_rgb(*upper), bgcolor=Color.from_rgb(*lower)))
            text.append("\n")
        self.sheet.fill(text)


def _label(photo: PhotoView) -> str:
    words = [photo.note or "picture", photo.taken_at or "time not known"]
    return " · ".join([*words, "drawing"] if photo.drawing else words)
