"""Weather from a feed: asked by hand, read as any weather file, shown before it is written."""

from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.weather_files import Said, WeatherFile, issued, look_into

if TYPE_CHECKING:
    from scout.intake.feed import Provider

STATION = "feed"


def look_into_feed(context: Context, provider: "Provider | None" = None) -> WeatherFile:
    """Return what the feed says, before anything is written. Errors: BadInput where none is set or it fails.

    provider: None asks the address in the settings.
    """
    answer = (provider or _set(context)).ask()
    said = Said(station=STATION)
    if answer.issued_at is not None:
        said = replace(said, issued_at=issued(answer.issued_at))
    with TemporaryDirectory() as folder:
        file = Path(folder) / "feed.csv"
        file.write_text(answer.text, encoding="utf-8")
        return look_into(context, file, said)


def _set(context: Context) -> "Provider":
    from scout.intake.feed import Address

    if not context.settings.feed:
        raise BadInput('No feed is set; put feed = "https://..." into settings.toml, or import a file.')
    return Address(context.settings.feed)
