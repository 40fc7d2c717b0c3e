"""What the benchmarks share: the ten-season garden, programs in pseudo-terminals, numbers kept with the run."""

import os
import shutil
import statistics
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest

from scout import paths
from scout.knowledge.base import Knowledge
from scout.knowledge.load import load_knowledge

from ..e2e.terminal import Terminal
from ..shipped import shipped_knowledge
from .ten_seasons import build

HERE = Path(__file__).parent
DAY = "2026-07-22"


@dataclass(frozen=True)
class Times:
    """Seconds of one thing, measured several times."""

    seconds: Sequence[float]

    @property
    def median_ms(self) -> float:
        return 1000 * statistics.median(self.seconds)

    @property
    def p95_ms(self) -> float:
        ordered = sorted(self.seconds)
        return 1000 * ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]


@pytest.fixture
def tell(benchmark, capsys: pytest.CaptureFixture[str]) -> Callable[..., None]:
    """Keep numbers with the run and print them."""

    def told(**numbers: float) -> None:
        benchmark.extra_info.update({name: round(value, 3) for name, value in numbers.items()})
        with capsys.disabled():
            print("\n   " + " · ".join(f"{name} {value:.3g}" for name, value in numbers.items()))

    return told


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return shipped_knowledge()


@pytest.fixture(scope="session")
def ten_seasons(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden made once, with the knowledge compiled as a first start leaves it."""
    home = tmp_path_factory.mktemp("ten") / "home"
    build(home)
    load_knowledge(paths.knowledge_folder(), home / "cache")
    return home


@pytest.fixture
def home(ten_seasons: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(ten_seasons, tmp_path / "home"))


@pytest.fixture(scope="session")
def env(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The environment of every program measured: bytecode is kept, as an installation has it."""
    leave_out = ("COLUMNS", "LINES", "NO_COLOR", "PYTHONDONTWRITEBYTECODE")
    kept = {key: value for key, value in os.environ.items() if key not in leave_out}
    kept |= {"TERM": "xterm-256color", "TZ": "UTC", "TEXTUAL_ANIMATIONS": "none"}
    return kept | {"PYTHONPYCACHEPREFIX": str(tmp_path_factory.mktemp("bytecode"))}


@pytest.fixture
def run(env: dict[str, str], home: Path) -> Callable[..., Terminal]:
    """Start a program on a desk's screen: "bedwalk", or a bare app by its file's name."""

    def started(name: str, *arguments: str) -> Terminal:
        if name == "bedwalk":
            command = [str(Path(sys.executable).with_name("bedwalk"))]
        else:
            command = [sys.executable, str(HERE / f"{name}.py")]
        return Terminal([*command, *arguments], env | {"BEDWALK_HOME": str(home)}, 80, 24)

    return started
