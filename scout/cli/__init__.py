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
        from scout.plain import clean_text

        print(f"bedwalk: {clean_text(str(error))}", file=sys.stderr)  # it may hold a file's name
        raise SystemExit(error.exit_code) from None
    except BrokenPipeError:
        sys.stderr.close()
        raise SystemExit(1) from None
    except OSError as error:
        print(f"bedwalk: {_disk_sentence(error)}", file=sys.stderr)
        raise SystemExit(1) from None


def _disk_sentence(error: OSError) -> str:
    """Return one sentence for a file or folder that nothing below named."""
    reason = (error.strerror or str(error) or "the system gave no reason").lower()
    name = ascii(error.filename) if error.filename else "A file"
    return f"{name} cannot be used: {reason}; check the folder, its rights and the room on the disk."
