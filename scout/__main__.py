"""Run `python -m scout`, the same as the `bedwalk` command."""

from scout.cli import main

main()
