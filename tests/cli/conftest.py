"""The line mode, run in this process as a terminal or a script would run it, on a copy of a prepared garden."""

import functools
import io
import json
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
import typer.main

from scout import cli, paths
from scout.knowledge import load
from scout.services import garden, site
from scout.services.context import Context
from scout.store import database as door

from ..shipped import shipped_knowledge

DAY = "2026-07-22"


@dataclass
class Ran:
    """What a command gave."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)

    @property
    def complaint(self) -> str:
        """The one sentence on stderr of a command that refused."""
        assert self.code == 1, (self.code, self.out, self.err)
        assert self.err.startswith("bedwalk: ") and self.err.endswith(".\n"), self.err
        assert self.err.count("\n") == 1 and "Traceback" not in self.err
        return self.err


class _Typed(io.StringIO):
    """Standard input: typed by a person at a terminal, or piped from a script."""

    def __init__(self, text: str, tty: bool) -> None:
        super().__init__(text)
        self._tty = tty

    def isatty(self) -> bool:
        return self._tty


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garden of three beds and a tub, made once."""
    home = tmp_path_factory.mktemp("template") / "home"
    made = Context(home, clock=lambda: datetime(2026, 7, 1, 12, 0, tzinfo=UTC))
    site.create_garden(
        made, "Test plot", zone="UTC", first_frost="10-28", last_frost="04-20", latitude=12.25, longitude=34.75
    )
    long = garden.add_bed(made, "Long bed", water_zone="east")
    mixed = garden.add_bed(made, "Mixed bed")
    tub = garden.add_bed(made, "Black tub", kind="tub")
    garden.add_planting(made, (long,), "cucumber", plants_n=8, variety="Testina", sown_on="2026-05-20")
    garden.add_planting(made, (mixed,), "tomato", plants_n=6, set_out_on="2026-05-10")
    garden.add_planting(made, (mixed,), "beet", plants_n=30, sown_on="2026-05-15")
    garden.add_planting(made, (tub,), "sweet_pepper", set_out_on="2026-05-10")
    made.engine.dispose()
    return home


@pytest.fixture(scope="session")
def read_once() -> Callable[..., Any]:
    """The shipped knowledge is read once; another folder each time."""
    plain = load.load_knowledge

    def read(folder: Path, cache: Path | None = None) -> Any:
        return shipped_knowledge() if folder == paths.knowledge_folder() else plain(folder, cache)

    return read


@pytest.fixture(scope="session")
def built_once() -> Callable[..., Any]:
    """Typer builds all commands anew at every call; once is enough here."""
    return functools.cache(typer.main.get_command)


@pytest.fixture(scope="session")
def opened_once() -> Callable[..., Any]:
    """One engine a file, its connections closed after each command as ever: it remembers compiled statements."""
    plain = door.open_engine
    known: dict[tuple[object, object], Any] = {}

    @functools.wraps(plain)
    def open_engine(target: Path | str) -> Any:
        key = (target, door.sqlite_engine)
        if key not in known:
            known[key] = plain(target)
        return known[key]

    return open_engine


@pytest.fixture
def bare(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    read_once: Callable[..., Any],
    built_once: Callable[..., Any],
    opened_once: Callable[..., Any],
) -> Callable[..., Ran]:
    """Run `bedwalk …` on 22 July with an empty data folder; `typed` are the answers of a person at a terminal."""
    monkeypatch.setenv("BEDWALK_HOME", str(tmp_path / "home"))
    monkeypatch.setattr(load, "load_knowledge", read_once)
    monkeypatch.setattr(typer.main, "get_command", built_once)
    monkeypatch.setattr(door, "open_engine", opened_once)

    def run(*words: str, typed: str | None = None, piped: str = "", on: str | None = DAY) -> Ran:
        begun = ["bedwalk", *(["--on", on] if on else []), *words]
        monkeypatch.setattr(sys, "argv", begun)
        monkeypatch.setattr(sys, "stdin", _Typed(piped if typed is None else typed, typed is not None))
        capsys.readouterr()
        code: Any = 0
        try:
            cli.main()
        except SystemExit as left:
            code = left.code or 0
        out, err = capsys.readouterr()
        return Ran(code, out, err)

    return run


@pytest.fixture
def bedwalk(bare: Callable[..., Ran], template: Path, tmp_path: Path) -> Callable[..., Ran]:
    """The same on a copy of the prepared garden."""
    shutil.copytree(template, tmp_path / "home")
    return bare


@pytest.fixture(scope="session")
def under_way(template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy with a walk begun at the cucumbers and a marked plant, for what is refused and so changes nothing."""
    from scout.services import marked, walk
    from scout.services.plan import walk_plan

    folder = tmp_path_factory.mktemp("under_way") / "home"
    shutil.copytree(template, folder)
    opened = Context(folder, clock=lambda: datetime(2026, 7, 22, 9, 0, tzinfo=UTC))
    site.open_garden(opened)
    walk.start(opened, walk_plan(opened).stops)
    marked.mark_plant(opened, garden.planted(opened)[0].planting_id, "red tape", "indeterminate")
    opened.engine.dispose()
    return folder


@pytest.fixture
def refuses(bare: Callable[..., Ran], under_way: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Ran]:
    """Run a command that is to refuse, on the garden under way that all such tests share."""
    monkeypatch.setenv("BEDWALK_HOME", str(under_way))
    return bare


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def database(home: Path) -> Path:
    return paths.database(home)


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    """A small picture that says where it was taken (a place in the sea) and when."""
    from PIL import Image

    image = Image.new("RGB", (40, 20), (20, 160, 40))
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = "2026:07:21 18:30:00"
    exif.get_ifd(0x8825).update({1: "N", 2: (1.0, 2.0, 3.0), 3: "W", 4: (4.0, 5.0, 6.0)})
    file = tmp_path / "leaf.jpg"
    image.save(file, exif=exif)
    return file
