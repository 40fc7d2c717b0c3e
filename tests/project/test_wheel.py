"""What is shipped: one top-level name, and exactly the files of the two data folders."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def names(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    pytest.importorskip("hatchling", reason="hatchling is not installed, so the wheel was not built here")
    out = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(out)]
    subprocess.run(build, check=True, capture_output=True, cwd=ROOT)
    return set(zipfile.ZipFile(next(out.glob("*.whl"))).namelist())


def tracked(folder: str) -> set[str]:
    listed = subprocess.run(["git", "ls-files", folder], cwd=ROOT, check=True, capture_output=True, text=True)
    return set(listed.stdout.split("\n")) - {""}


def test_one_top_level_name(names: set[str]) -> None:
    assert {name.split("/")[0] for name in names if ".dist-info" not in name} == {"scout"}


@pytest.mark.parametrize("folder", ["knowledge", "demo_scouting"])
def test_the_data_is_shipped_whole(names: set[str], folder: str) -> None:
    shipped = {name.removeprefix("scout/_shipped/") for name in names if f"_shipped/{folder}/" in name}
    assert tracked(folder) <= shipped


@pytest.mark.parametrize("folder", ["knowledge", "demo_scouting"])
def test_the_data_folders_hold_no_code(folder: str) -> None:
    assert not [name for name in tracked(folder) if name.endswith(".py")]
