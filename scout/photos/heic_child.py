"""Run as a program of its own: HEIC on standard input, the same picture as PNG on standard output.

The HEIC library ends the whole process on some damaged files; here that ends only this one.
Exit codes: 0 done, 3 more pixels than allowed, anything else damaged.
"""

import io
import sys

TOO_LARGE = 3


def main(max_pixels: int) -> int:
    """Convert one picture of at most `max_pixels`; return the exit code."""
    import pi_heif
    from PIL import Image

    pi_heif.register_heif_opener()
    with Image.open(io.BytesIO(sys.stdin.buffer.read()), formats=["HEIF"]) as image:
        if image.width * image.height > max_pixels:
            return TOO_LARGE
        out = io.BytesIO()
        image.save(out, "PNG", compress_level=0, exif=image.info.get("exif") or b"")
    sys.stdout.buffer.write(out.getvalue())
    return 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1])))
