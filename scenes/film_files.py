"""Pictures one after another as files: MPEG-4 by a program of its own, GIF without one."""

import errno
import subprocess
from collections.abc import Iterable, Iterator
from contextlib import suppress
from itertools import chain
from pathlib import Path
from typing import Final

from PIL import Image

from kinematics.checks import InputError

#: Time of a picture of a GIF is counted in hundredths of a second.
_HUNDREDTHS: Final = 100.0
#: Threads of the coder: its bytes depend on their number.
_CODER_THREADS: Final = 2
#: How much may be lost, as the coder counts it: nothing that one sees.
_LOSS: Final = 18
#: Pictures from which the colours of a GIF are chosen, of the first ones.
_COLOURS_FROM: Final = 24
_COLOURS: Final = 255
_ROUNDS: Final = 4


def coder(path: Path) -> str:
    """Return the program that codes films.

    Raises
    ------
    InputError
        It is not installed.
    """
    try:
        import imageio_ffmpeg
    except ImportError as error:
        raise InputError(
            f"--out {path}: to write .mp4 takes a coder that is not installed; install it with:"
            " pip install 'cuspway[film]' (it brings ffmpeg, a program under the GPL), or give a"
            " name that ends with .gif"
        ) from error
    program: str = imageio_ffmpeg.get_ffmpeg_exe()
    return program


def write_mp4(
    path: Path, pictures: Iterable[bytes], size: tuple[int, int], pictures_a_s: float
) -> None:
    """Write pictures (red, green and blue, row by row) as MPEG-4 with H.264.

    Parameters
    ----------
    path : Path
        File, whose folder is there.
    pictures : iterable of bytes
        Of one size.
    size : (int, int)
        Width and height, pixels; both even.
    pictures_a_s : float
        How many a second.

    Raises
    ------
    InputError
        The coder is not installed.
    OSError
        It could not write.
    """
    width, height = size
    given = ["-f", "rawvideo", "-pix_fmt", "rgb24", "-s", f"{width}x{height}"]
    given += ["-r", f"{pictures_a_s:g}", "-i", "-"]
    coded = ["-c:v", "libx264", "-preset", "veryfast", "-crf", f"{_LOSS}", "-pix_fmt", "yuv420p"]
    coded += ["-threads", f"{_CODER_THREADS}"]
    # Nothing of this machine or this day goes into the file, and players can begin before its end.
    coded += ["-map_metadata", "-1", "-fflags", "+bitexact", "-flags:v", "+bitexact"]
    coded += ["-movflags", "+faststart", "-f", "mp4", "-y", str(path)]
    command = [coder(path), "-hide_banner", "-loglevel", "error", *given, *coded]
    # Ctrl-C is for this program, which then ends the other.
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
    ) as running:
        try:
            said = _fed(running, pictures)
        except BaseException:
            running.kill()
            raise
    if running.returncode != 0:
        raise OSError(errno.EIO, (said.strip().splitlines() or ["no reason told"])[-1])


def _fed(running: "subprocess.Popen[bytes]", pictures: Iterable[bytes]) -> str:
    """Give all pictures to the coder, and return what it complained of."""
    assert running.stdin is not None and running.stderr is not None
    with suppress(BrokenPipeError):  # it has ended, and says why
        for picture in pictures:
            running.stdin.write(picture)
        running.stdin.close()
    return running.stderr.read().decode("utf-8", "replace")


def write_gif(
    path: Path, pictures: Iterable[bytes], size: tuple[int, int], pictures_a_s: float
) -> None:
    """Write pictures as a GIF that plays for ever; for the parameters see `write_mp4`.

    It has 256 colours, chosen for its first pictures, and stands as many hundredths of a second
    at each as come nearest to what is asked for.
    """
    images = (Image.frombytes("RGB", size, picture) for picture in pictures)
    first = [image for image, _ in zip(images, range(_COLOURS_FROM), strict=False)]
    colours = _colours_of([first[0], first[len(first) // 2], first[-1]])
    coded = _coded(chain(first, images), colours)
    begin = next(coded)
    shown_ms = 10 * max(2, round(_HUNDREDTHS / pictures_a_s))
    begin.save(
        path, format="gif", save_all=True, append_images=coded, duration=shown_ms, loop=0,
        optimize=False, disposal=1,
    )  # fmt: skip


def _coded(images: Iterable[Image.Image], colours: Image.Image) -> Iterator[Image.Image]:
    for image in images:
        yield image.quantize(palette=colours, dither=Image.Dither.NONE)


def _colours_of(images: list[Image.Image]) -> Image.Image:
    """Return an image with the colours that serve some images best."""
    width, height = images[0].size
    sheet = Image.new("RGB", (width, height * len(images)))
    for number, image in enumerate(images):
        sheet.paste(image, (0, number * height))
    # Few shades of paper and many of teeth: a fourth as far off as by halving what is most.
    return sheet.quantize(_COLOURS, method=Image.Quantize.MAXCOVERAGE, kmeans=_ROUNDS)
