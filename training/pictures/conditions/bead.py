"""What is seen at the bead."""

from __future__ import annotations

from training.pictures.conditions.common import Condition
from training.trade.speech import saying

CONDITIONS = {
    "bead-damage": Condition(
        "bead",
        "bead-damage",
        (
            saying("A ragged dark line with branches runs above the heel of the bead, lower than the rubber."),
            saying("Above the heel of the bead the rubber has parted along a crooked line with a dark ground."),
        ),
        (
            saying("A thin pale line of even height runs above the heel of the bead, higher than the rubber."),
            saying("Above the heel of the bead a thin fin stands up along an even line and throws its shadow."),
        ),
        line="heel",
    ),
}
