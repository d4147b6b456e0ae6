"""What is seen on the liner."""

from __future__ import annotations

from training.pictures.conditions.common import Condition
from training.trade.speech import saying

CONDITIONS = {
    "run-flat-damage": Condition(
        "liner",
        "run-flat-damage",
        (
            saying("A dull band with creases across it goes around the liner, with dark crumbs below it."),
            saying("The ridges of the liner end at a rubbed band, which has folds, and grains lie at its foot."),
        ),
        (
            saying("A pale band with thin streams below it goes around the liner, and its edge is bright."),
            saying("The ridges of the liner go on under a pale band, which has narrow streaks hanging from it."),
        ),
    ),
    "liner-cracked": Condition(
        "liner",
        "liner-cracked",
        (
            saying("Along a line up the liner a dark gap opens, and on its ground threads lie side by side."),
            saying("The seam of the liner has parted in the shape of a lens, with one edge curled up."),
        ),
        (
            saying("Along a line up the liner a low step shows, and the ridges go over it from side to side."),
            saying("The seam of the liner is a fine line from end to end, one side a little up."),
        ),
    ),
    "liner-separation": Condition(
        "liner",
        "liner-separation",
        (
            saying("A tongue of the liner stands up, and beside it threads lie on a dark ground."),
            saying("The liner is torn in an arc, curled at the edge, with dark woven threads below it."),
        ),
        (
            saying("A round outline stands in the liner, and within it the ridges go on as outside."),
            saying("The liner has two rings, one in the other, with the same smooth rubber in them."),
        ),
    ),
    "liner-blistered": Condition(
        "liner",
        "liner-blistered",
        (
            saying("Round domes stand up from the liner, each bright toward the lamp and dark away from it."),
            saying("Several smooth hills rise out of the liner, with a shadow on one side of each."),
        ),
        (
            saying("Round spots lie on the liner, each pale with a brighter rim, and the ridges go through."),
            saying("Several pale round stains lie on the liner, with a bright line around each."),
        ),
    ),
}
