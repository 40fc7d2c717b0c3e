"""`bedwalk demo`: the app on a throw-away copy of an invented garden."""

import sys

from scout.cli.commands import On, app, day_or_none


@app.command()
def demo(on: On = None) -> None:
    """Open the demo garden; nothing done there touches your own."""
    from scout.services.demo import demo_context
    from scout.tui.app import BedwalkApp

    print("Growing the demo garden…", file=sys.stderr)
    BedwalkApp(demo_context(day_or_none(on))).run()
