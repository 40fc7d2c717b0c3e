"""The command line: opens the app, or answers in lines; errors are one sentence on stderr."""

import sys


def main() -> None:
    """Run `bedwalk`: with nothing after it the app opens without loading the line mode."""
    from scout.errors import BedwalkError

    try:
        if len(sys.argv) == 1:
            from scout.cli.opening import open_app

            open_app(None)
        else:
            from scout.cli.commands import run

            run()
    except BedwalkError as error:
        print(f"bedwalk: {error}", file=sys.stderr)
        raise SystemExit(error.exit_code) from None
    except BrokenPipeError:
        sys.stderr.close()
        raise SystemExit(1) from None
