"""What is seen of a repair, one of earlier or one in the making, on the liner."""

from __future__ import annotations

from training.pictures.conditions.common import Condition
from training.trade.speech import saying

CONDITIONS = {
    "lifted-repair-edge": Condition(
        "liner",
        None,
        (
            saying("A repair unit lies on the liner, and one of its corners stands up with a dark gap under it."),
            saying("Three corners of a repair unit lie close to the liner, and the fourth throws a shadow."),
        ),
        (
            saying("A repair unit lies on the liner, and its edge runs out thin into the liner all around it."),
            saying("Four corners of a repair unit lie close to the liner, and their edges throw no shadow."),
        ),
    ),
    "bubble-under-unit": Condition(
        "liner",
        None,
        (
            saying("A repair unit lies on the liner, and one place in it stands up like a small cushion."),
            saying("In the field of a repair unit one round place is bright on one side and dark on the other."),
        ),
        (
            saying("A repair unit lies on the liner, and the middle of it is plane from one edge to the other."),
            saying("In the field of a repair unit the thin lines and the arrows are evenly gray on each side."),
        ),
    ),
    "string-without-unit": Condition(
        "liner",
        None,
        (
            saying("Two twisted ends stand out of the liner, side by side, and throw a long shadow on it."),
            saying("A rough cord comes through the liner in one place, and its ends point apart."),
        ),
        (
            saying("A small round pip stands on the liner, with a ring around it, and throws a shadow."),
            saying("A smooth peg stands on the liner in one place, and a low ring lies around it."),
        ),
    ),
    "poor-buffing": Condition(
        "liner",
        None,
        (
            saying("A roughened field lies on the liner, with deep arcs across it and dark shining places."),
            saying("In the roughened field some spots are black and bright, and grooves curve through it."),
        ),
        (
            saying("A roughened field lies on the liner, dull and fine like velvet all the way over."),
            saying("In the roughened field all of the grain is fine and gray, and its edge is a ragged line."),
        ),
    ),
}
