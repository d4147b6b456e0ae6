"""Which conditions there are: what each is called, where it is seen, and what is harmless but taken for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from training.pictures import inside, outside, repairs, running
from training.pictures.surface import Surface
from training.trade.speech import saying


class Degree(StrEnum):
    """How much of a condition there is."""

    SLIGHT = "slight"
    PLAIN = "plain"
    GRAVE = "grave"


@dataclass(frozen=True)
class Kind:
    """One way a surface can look: how it is drawn, and what is seen, without a name for it."""

    draw: Callable[[Surface, int], None]
    seen: str


@dataclass(frozen=True)
class Condition:
    """A finding that ends the evaluation (as the vocabulary of cases has it, or none) and what is taken for it."""

    surface: str
    finding: str | None
    shown: Kind
    look_alike: Kind


def _condition(
    surface: str,
    finding: str | None,
    shown: tuple[Callable[[Surface, int], None], str],
    look_alike: tuple[Callable[[Surface, int], None], str],
) -> Condition:
    return Condition(surface, finding, Kind(*shown), Kind(*look_alike))


CONDITIONS: Mapping[str, Condition] = MappingProxyType(
    {
        "ozone-cracking": _condition(
            "sidewall",
            "ozone-cracking",
            (
                outside.ozone,
                saying("Dark gaping lines lie around the sidewall below the rib, and a fingernail would sink in."),
            ),
            (
                outside.checking,
                saying("A net of hair-thin short lines lies in the skin of the sidewall, none of them gaping."),
            ),
        ),
        "bulge": _condition(
            "sidewall",
            "bulge",
            (outside.bulged, saying("The sidewall is pushed outward in one place, round like the back of a spoon.")),
            (
                outside.hollow,
                saying("A shallow even valley runs straight across the sidewall, from the tread toward the rim."),
            ),
        ),
        "impact-damage": _condition(
            "sidewall",
            "impact-damage",
            (outside.broken, saying("Three deep splits meet in one place of the sidewall, which is pushed in there.")),
            (
                outside.scratched,
                saying("Three pale scratches meet in one place of the sidewall, and just the skin is roughened."),
            ),
        ),
        "exposed-cord": _condition(
            "sidewall",
            "exposed-cord",
            (
                outside.cut_to_cord,
                saying("Rubber is gone from a long place, and threads lie side by side on its ground."),
            ),
            (
                outside.scuffed,
                saying("A long place of the sidewall is rubbed dull and rough, and rubber covers all of it."),
            ),
        ),
        "contamination": _condition(
            "sidewall",
            "contamination",
            (
                outside.swollen,
                saying("A shining dark area stands above its surroundings and is puckered like orange peel."),
            ),
            (
                outside.wet,
                saying(
                    "A thin shining dark film with a sharp rim lies there, and the surface shows unchanged through it."
                ),
            ),
        ),
        "bead-damage": _condition(
            "bead",
            "bead-damage",
            (outside.torn_bead, saying("A ragged dark opening with branches runs above the heel of the bead.")),
            (outside.flash, saying("A thin standing fin of rubber runs evenly around above the heel of the bead.")),
        ),
        "excessive-wear": _condition(
            "tread",
            "excessive-wear",
            (running.worn_to_cord, saying("In one place the tread is gone, and slanting steel wires lie open.")),
            (running.bar_below, saying("A bar of rubber crosses every groove, and the blocks beside it stand higher.")),
        ),
        "wear-indicators-flush": _condition(
            "tread",
            "wear-indicators-flush",
            (
                running.bar_flush,
                saying("The grooves are shallow, and a bar across them is as high as the blocks beside it."),
            ),
            (
                running.bar_far_below,
                saying("The grooves are deep, and a bar across them lies far down between the blocks."),
            ),
        ),
        "chunking": _condition(
            "tread",
            "chunking",
            (
                running.torn_out,
                saying("Ragged pieces of the tread blocks are missing, and the ground there is rough and low."),
            ),
            (running.nicked, saying("Short small nicks are strewn over the tread blocks, and every block is whole.")),
        ),
        "tread-separation": _condition(
            "tread",
            "tread-separation",
            (
                running.loose_tread,
                saying("Along the shoulder the edge of the tread is raised, with a dark gap under it."),
            ),
            (running.joint, saying("Along the shoulder runs a fine even seam, closed over its whole length.")),
        ),
        "uneven-wear-separation": _condition(
            "tread",
            "uneven-wear-separation",
            (running.dished, saying("One spot of the tread lies lower than the rest, and its edges are feathered.")),
            (
                running.muddy,
                saying("A pale dry cake lies over one spot of the tread, and the blocks are as high as elsewhere."),
            ),
        ),
        "run-flat-damage": _condition(
            "liner",
            "run-flat-damage",
            (
                inside.run_flat,
                saying("A dull ring with creases across it runs around the liner, with dark crumbs below."),
            ),
            (
                inside.lubricant,
                saying("A pale film with dried runs lies on the liner, and the ridges pass through it untouched."),
            ),
        ),
        "liner-cracked": _condition(
            "liner",
            "liner-cracked",
            (inside.open_splice, saying("A seam of the liner gapes, and threads can be seen in the gap.")),
            (
                inside.sound_splice,
                saying("A seam of the liner shows as a low step with a fine line, closed from end to end."),
            ),
        ),
        "liner-separation": _condition(
            "liner",
            "liner-separation",
            (
                inside.loose_liner,
                saying("A tongue of the liner stands up, and beside it the threads of the body lie bare."),
            ),
            (
                inside.pressed_mark,
                saying("An oval outline is pressed into the liner, and its edge is closed all around."),
            ),
        ),
        "liner-blistered": _condition(
            "liner",
            "liner-blistered",
            (inside.blistered, saying("Round smooth domes stand up from the liner.")),
            (inside.drops, saying("Round pale spots with a bright rim lie on the liner, as thin as a breath.")),
        ),
        "lifted-repair-edge": _condition(
            "liner",
            None,
            (repairs.lifted_edge, saying("A repair unit lies on the liner, and one of its corners stands up from it.")),
            (repairs.sound_unit, saying("A repair unit lies on the liner, stitched down to its edge all around.")),
        ),
        "bubble-under-unit": _condition(
            "liner",
            None,
            (
                repairs.bubble,
                saying("A repair unit lies on the liner, and one place in it is raised like a small cushion."),
            ),
            (repairs.sound_unit, saying("A repair unit lies on the liner, and it lies even from edge to edge.")),
        ),
        "string-without-unit": _condition(
            "liner",
            None,
            (
                repairs.string_plug,
                saying("Two twisted tails stand out of a hole in the liner, and nothing covers them."),
            ),
            (repairs.molded_pip, saying("A round pip with a low collar stands on the liner, of one piece with it.")),
        ),
        "poor-buffing": _condition(
            "liner",
            None,
            (
                repairs.gouged_buffing,
                saying("The roughened field on the liner has deep arcs across it and dark shining places."),
            ),
            (repairs.even_buffing, saying("The roughened field on the liner is dull and even like velvet.")),
        ),
    }
)
