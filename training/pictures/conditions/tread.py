"""What is seen on the tread."""

from __future__ import annotations

from training.pictures.conditions.common import Condition
from training.trade.speech import saying

CONDITIONS = {
    "excessive-wear": Condition(
        "tread",
        "excessive-wear",
        (
            saying("In one place the tread is gone with its grooves, and slanting wires lie side by side there."),
            saying("A hollow in the tread shows a ground of pale twisted wires, and the grooves end at its edge."),
        ),
        (
            saying("In one row the grooves are filled by bars of rubber, with blocks that stand higher beside."),
            saying("A row across the tread shows a low bar in each groove, with the blocks higher on both sides."),
        ),
    ),
    "wear-indicators-flush": Condition(
        "tread",
        "wear-indicators-flush",
        (
            saying("The grooves are shallow with little shadow, and bars in them are as high as the blocks."),
            saying("A row of bars crosses the tread in one plane with the blocks, and the grooves are gray."),
        ),
        (
            saying("The grooves are deep with dark shadows, and bars in them lie far lower than the blocks."),
            saying("A row of bars crosses the tread far below the tops of blocks, and the grooves are dark."),
        ),
    ),
    "chunking": Condition(
        "tread",
        "chunking",
        (
            saying("Pieces of the blocks are missing, with ragged edges, and the ground there is rough and low."),
            saying("The blocks have large hollows with torn walls, and some of these open to a groove."),
        ),
        (
            saying("Small nicks lie strewn over the blocks, thin and short, and the blocks keep their edges."),
            saying("The blocks have many short thin cuts in their skin, and these lie in all directions."),
        ),
    ),
    "tread-separation": Condition(
        "tread",
        "tread-separation",
        (
            saying("Along the shoulder the edge of the tread stands up, with a ragged dark gap beside it."),
            saying("Where the tread ends a black line opens, wide in the middle, and its edge is raised."),
        ),
        (
            saying("Along the shoulder the tread ends in an even edge, with a fine closed seam beside it."),
            saying("Where the tread ends a thin line runs, equally wide from top to bottom, and lies low."),
        ),
    ),
    "uneven-wear-separation": Condition(
        "tread",
        "uneven-wear-separation",
        (
            saying("One spot of the tread lies lower than the rest, and the fine cuts in it are gone."),
            saying("Over one round spot the blocks are worn low and streaked, and the grooves are shallow there."),
        ),
        (
            saying("One spot of the tread is paler than the rest, and the fine cuts in it are filled."),
            saying("Over one round spot a dull pale crust lies on the blocks, and the grooves are deep there."),
        ),
    ),
}
