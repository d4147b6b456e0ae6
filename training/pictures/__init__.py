"""Gray pictures of conditions of a tire, computed from a seed, and photographs that a shop sends, made into pictures of
one size. Pure: needs numpy and Pillow alone.

`picture(name, degree=..., look_alike=..., seed=...)` is a picture that nothing was drawn of yet. Its `parameters` go
into JSON and `render(parameters)` makes the file of them, the same bytes every time; `.file` is that file, `.pixels`
the gray levels, `.description` says in words what is seen (alternative text), `.place` and `.side` where.
numpy is loaded when the first pixels are asked for.
"""

from training.pictures.conditions import CONDITIONS, Condition, Degree
from training.pictures.named import FOUND_TOO, NAMED, Named, found_in
from training.pictures.padding import BYTES
from training.pictures.photograph import (
    ACCEPTED,
    HIGH,
    LEAST_SIDE,
    MIB,
    MOST_BYTES,
    MOST_PIXELS,
    WIDE,
    Photographed,
    Taken,
    UnfitPhotograph,
    taken,
    too_large,
)
from training.pictures.picture import Picture, bare, described, picture, picture_of, render
from training.pictures.setting import HEIGHT, WIDTH
