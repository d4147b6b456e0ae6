"""Pictures to look at and figures of them: `python -m tests.pictures sheet FILE`, `classify`, `leaks` or `all`."""

from __future__ import annotations

import argparse
import statistics
import sys

from PIL import Image, ImageDraw

from tests.pictures.measuring import LEAST_TOLD_APART, MOST_AREA, Taken, areas, taken, told_apart
from training.pictures import CONDITIONS, Degree, bare, picture


def sheet(names: list[str], file: str, seed: int, width: int) -> None:
    """All conditions in three degrees, each beside what is taken for it."""
    height, title = width * 3 // 4, 16
    page = Image.new("L", (6 * width, len(names) * (height + title)), 20)
    pen = ImageDraw.Draw(page)
    for row, name in enumerate(names):
        for column in range(6):
            degree, look_alike = list(Degree)[column % 3], column >= 3
            shown = picture(name, degree=degree, look_alike=look_alike, seed=seed + column % 3)
            at = column * width, row * (height + title)
            page.paste(Image.fromarray(shown.pixels).resize((width, height), Image.Resampling.LANCZOS), at)
            pen.text((at[0] + 4, at[1] + height + 2), f"{name}{', look-alike' * look_alike}, {degree}", fill=230)
    page.save(file)


def classify(both: tuple[list[Taken], list[Taken]], degree: Degree) -> tuple[str, bool]:
    """Train on pictures of each kind, then tell unseen ones apart."""
    right = told_apart(*both)
    # a slight condition may look like what is taken for it; a grave one may not
    return f"{right:6.1%} told apart", degree != Degree.GRAVE or right >= LEAST_TOLD_APART


def leaks(both: tuple[list[Taken], list[Taken]]) -> tuple[str, bool]:
    """What one number gives away."""
    found = areas(*both)
    return ", ".join(f"{what} {area:.2f}" for what, area in found.items()), max(found.values()) <= MOST_AREA


def measure(what: str, names: list[str], degrees: list[Degree], count: int) -> bool:
    """A line for each pair and degree; whether all of them hold."""
    good, spent, sizes = True, [], []
    bare(names[0], seed=0)  # the noise is built once a process
    for degree in degrees:
        for name in names:
            learning = what == "classify" or (what == "all" and degree == Degree.GRAVE)
            both = taken(name, degree, range(count), learning=learning)
            told = [leaks(both)] if what != "classify" else []
            told += [classify(both, degree)] if learning else []
            good = good and all(holds for _, holds in told)
            spent += [one.cpu_ms for side in both for one in side if one.cpu_ms is not None]
            sizes += [one.kib for side in both for one in side if one.kib is not None]
            figures = "; ".join(text for text, _ in told)
            print(f"{name:23} {degree:6} {figures}{'' if all(holds for _, holds in told) else '  <--'}", flush=True)
    print(
        f"{count} of each kind; a picture with its file took {statistics.median(spent):.0f} ms of CPU in the median, "
        f"{max(spent):.0f} at worst; before they are filled up the files have {min(sizes):.0f} to {max(sizes):.0f} KiB"
    )
    return good


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, prog="python -m tests.pictures")
    parser.add_argument("what", choices=("sheet", "classify", "leaks", "all"))
    parser.add_argument("file", nargs="?", default="pictures.png", help="where the sheet goes")
    parser.add_argument("--only", nargs="*", default=list(CONDITIONS), choices=list(CONDITIONS))
    parser.add_argument("--degree", type=Degree, nargs="*", default=list(reversed(Degree)), choices=list(Degree))
    parser.add_argument("--count", type=int, default=200, help="of each kind")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--width", type=int, default=320, help="of one picture on the sheet, in pixels")
    given = parser.parse_args()
    if given.what == "sheet":
        sheet(given.only, given.file, given.seed, given.width)
        return 0
    return 0 if measure(given.what, given.only, given.degree, given.count) else 1


if __name__ == "__main__":
    sys.exit(main())
