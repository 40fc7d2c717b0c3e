"""What `bedwalk keeping-up` puts out: verdicts, epidemic figures, or a sheet to print."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

from scout.cli.commands import print_json
from scout.cli.printing import say

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from scout.diagnosis.knife import Knife
    from scout.services.keeping_figures import Figures
    from scout.services.keeping_followed import Followed


def show_verdicts(found: "Sequence[Followed]", knives: "Sequence[Knife]", as_list: bool, as_json: bool) -> None:
    """Print each planting's verdict, what it rests on, and the advice before the knife where it is known."""
    from scout.services.keeping_doubts import doubt_lines
    from scout.services.keeping_knife import knife_json, knife_lines
    from scout.services.keeping_table import measured_lines, with_numbers
    from scout.services.keeping_up import judge
    from scout.services.keeping_words import CHOICE, lines_below, verdict_sentence

    told = [judge(one) for one in found]
    if as_json:
        plain: list[dict[str, Any]] = [with_numbers(one) for one in told]
        for answer, knife in zip(plain, knives, strict=False):
            answer["before_the_knife"] = knife_json(knife)
        print_json(plain if as_list else plain[0])
        return
    for number, one in enumerate(told):
        say(*([one.planting] if one.planting else []), verdict_sentence(one), *lines_below(one))
        say(*doubt_lines(one.followed.rows))
        say(*(knife_lines(knives[number]) if knives else []), *measured_lines(one.followed))
    say(CHOICE)


def show_figures(found: "Sequence[Figures]", as_list: bool, as_json: bool) -> None:
    """Print each planting's epidemic figures."""
    from scout.services.keeping_figures_words import as_json as plain
    from scout.services.keeping_figures_words import figure_lines

    if as_json:
        answers = [plain(one) for one in found]
        print_json(answers if as_list else answers[0])
        return
    for one in found:
        say(*([one.planting] if one.planting else []), *figure_lines(one))


def print_sheet(found: "Sequence[Followed]", knives: "Sequence[Knife]", on: "date", file: Path) -> None:
    """Write the verdicts as a sheet to print, and say where."""
    from scout.reports.keeping_sheet import write_sheet
    from scout.services.keeping_up import judge

    write_sheet([judge(one) for one in found], knives, on, file)
    say(f"Written to {file}; open it in a browser and print it.")
