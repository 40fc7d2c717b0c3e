"""The docs fall behind nothing: every command is in the README, every key says what it does, every rule is counted."""

import re
from pathlib import Path

import pytest
import typer.main

from scout.tui.keys import KEYS

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def commands() -> list[str]:
    from scout.cli.commands import app, load_commands

    load_commands()
    return sorted(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


@pytest.mark.parametrize("command", commands())
def test_every_command_is_in_the_readme(command: str) -> None:
    assert f"bedwalk {command}" in README


@pytest.mark.parametrize("command", commands())
def test_every_command_has_help(command: str) -> None:
    from scout.cli.commands import app

    assert typer.main.get_command(app).commands[command].get_short_help_str()  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", sorted(KEYS))
def test_every_key_says_what_it_does_and_fits_its_place(name: str) -> None:
    key = KEYS[name]
    assert key.does.endswith(".") and len(key.word) <= 11


def test_the_readme_opens_with_the_job_and_its_two_lines() -> None:
    demo = "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/bedwalk demo"
    suite = "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest"
    assert README.index(demo) < README.index(suite) < README.index("Your first walk")


def test_pictures_and_files_named_in_the_docs_exist() -> None:
    for text in (README, DEVELOPERS):
        for target in re.findall(r"\]\(([^)#]+)\)", text):
            assert (ROOT / target).exists(), target
    for target in re.findall(
        r"`((?:scout|knowledge|tests|demo_scouting|cli|tui|reports|services|store|photos|intake|diagnosis|science)/[\w/*<>.]+"
        r"|[a-z_]+\.py)`",
        DEVELOPERS,
    ):
        if "<" in target or "*" in target:
            continue
        assert (ROOT / target).exists() or (ROOT / "scout" / target).exists(), target


def test_the_layers_in_the_docs_are_those_that_are_held() -> None:
    held = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    for layer in ("cli", "tui", "services", "store | photos | intake | diagnosis", "knowledge | science", "plain"):
        assert f'"{layer}"' in held and layer in DEVELOPERS
