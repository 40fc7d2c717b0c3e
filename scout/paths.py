"""Every place on disk; nothing else builds such a path."""

import os
from pathlib import Path

import platformdirs

from scout.errors import BedwalkError

_PACKAGE = Path(__file__).resolve().parent


def _shipped(folder: str, marker: str) -> Path:
    for candidate in (_PACKAGE / "_shipped" / folder, _PACKAGE.parent / folder):
        if (candidate / marker).is_file():
            return candidate
    raise BedwalkError(f"The folder {folder!r} that belongs to Bedwalk is missing; install Bedwalk again.")


def knowledge_folder() -> Path:
    """Return the folder of knowledge files: shipped in the wheel, or beside the package in a checkout."""
    return _shipped("knowledge", "sources.toml")


def demo_folder() -> Path:
    """Return the folder of the demo garden."""
    return _shipped("demo_scouting", "garden.toml")


def home() -> Path:
    """Return the folder that holds the grower's data: BEDWALK_HOME, or the platform's data folder."""
    chosen = os.environ.get("BEDWALK_HOME")
    return Path(chosen).expanduser() if chosen else Path(platformdirs.user_data_dir("bedwalk", False))


def cache() -> Path:
    """Return the folder for things that can be made again."""
    chosen = os.environ.get("BEDWALK_HOME")
    return Path(chosen).expanduser() / "cache" if chosen else Path(platformdirs.user_cache_dir("bedwalk", False))


def database(root: Path) -> Path:
    """Return the grower's file under the data folder `root`."""
    return root / "garden.db"


def photos(root: Path) -> Path:
    """Return the folder of pictures taken in."""
    return root / "photos"


def inbox(root: Path) -> Path:
    """Return the folder that is watched for new pictures."""
    return root / "inbox"


def backups(root: Path) -> Path:
    """Return the folder of backups."""
    return root / "backups"


def settings_file(root: Path) -> Path:
    """Return the settings file."""
    return root / "settings.toml"


def calendar_file(root: Path) -> Path:
    """Return where the calendar of jobs is written when nobody names a file."""
    return root / "jobs.ics"


def device_file(root: Path) -> Path:
    """Return the file with this device's id, so that two devices on one garden can be told apart."""
    return root / "device_id"
