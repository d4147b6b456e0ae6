"""Pictures to look at and figures about them: `python -m tests.pictures sheet FILE`, `... classify`, `... leaks`."""

from __future__ import annotations

import argparse
import sys
import time

import numpy as np
from PIL import Image, ImageDraw

from tests.pictures.measuring import auc, features, pair, told
from training.pictures import CONDITIONS, Degree, picture


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


def classify(names: list[str], degree: Degree, count: int) -> bool:
    """Train on pictures of each kind, then tell unseen ones apart."""
    from sklearn.ensemble import ExtraTreesClassifier
    from sklearn.model_selection import cross_val_score

    good = True
    for name in names:
        rows, kinds = [], []
        for seed in range(count):
            # other seeds for the look-alike: no two pictures share a surface
            for kind, shown in enumerate(pair(name, degree, seed, seed + count)):
                rows.append(features(shown.pixels))
                kinds.append(kind)
        model = ExtraTreesClassifier(200, random_state=0)
        right = float(cross_val_score(model, np.array(rows), np.array(kinds), cv=5).mean())
        good = good and right >= 0.9
        print(f"{name:26} {degree:8} {count} of each kind: {right:6.1%} told apart", flush=True)
    return good


def leaks(names: list[str], degree: Degree, count: int) -> bool:
    """What one number gives away, and how long a picture takes."""
    good = True
    for name in names:
        start = time.process_time()
        pairs = [pair(name, degree, seed, seed + count) for seed in range(count)]
        spent = (time.process_time() - start) / (2 * count) * 1000
        ones, others = ([told(one) for one in side] for side in zip(*pairs, strict=True))
        areas = {what: auc([one[what] for one in ones], [other[what] for other in others]) for what in ones[0]}
        good = good and max(areas.values()) <= 0.6
        figures = ", ".join(f"{what} {area:.2f}" for what, area in areas.items())
        print(f"{name:26} {spent:5.0f} ms of CPU; {figures}", flush=True)
    return good


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, prog="python -m tests.pictures")
    parser.add_argument("what", choices=("sheet", "classify", "leaks"))
    parser.add_argument("file", nargs="?", default="pictures.png", help="where the sheet goes")
    parser.add_argument("--only", nargs="*", default=list(CONDITIONS), choices=list(CONDITIONS))
    parser.add_argument("--degree", type=Degree, default=Degree.GRAVE, choices=list(Degree))
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--width", type=int, default=320, help="of one picture on the sheet, in pixels")
    given = parser.parse_args()
    if given.what == "sheet":
        sheet(given.only, given.file, given.seed, given.width)
        return 0
    told_well = (classify if given.what == "classify" else leaks)(given.only, given.degree, given.count)
    return 0 if told_well else 1


if __name__ == "__main__":
    sys.exit(main())
