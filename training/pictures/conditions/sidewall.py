"""What is seen on the sidewall."""

from __future__ import annotations

from training.pictures.conditions.common import Condition
from training.trade.speech import saying

CONDITIONS = {
    "ozone-cracking": Condition(
        "sidewall",
        "ozone-cracking",
        (
            saying("Dark lines go around the sidewall below the rib, wide in the middle and pointed at the ends."),
            saying("Below the rib the rubber has opened in long lines, and the ground of them lies in shadow."),
        ),
        (
            saying("Short gray lines, as thin as a hair, lie close together in the skin all over the sidewall."),
            saying("Below the rib a net of many thin gray lines lies in the skin, and light shows their ground."),
        ),
        line="rib",
    ),
    "bulge": Condition(
        "sidewall",
        "bulge",
        (
            saying("The sidewall comes out in one place, round like the back of a spoon, with a soft shadow."),
            saying("One round place is bright toward the lamp and dark away from it, and lines bend around it."),
        ),
        (
            saying("The sidewall goes inward along a line from the tread toward the rim, with a soft shadow."),
            saying("One straight band is dark toward the lamp and bright away from it, from the tread to the rim."),
        ),
    ),
    "impact-damage": Condition(
        "sidewall",
        "impact-damage",
        (
            saying("Three dark lines meet in one place, wide and ragged, and the sidewall goes in around them."),
            saying("From one place three arms go out, and their ground lies so deep that no light comes to it."),
        ),
        (
            saying("Three pale lines meet in one place, thin and rough, and the sidewall around them is even."),
            saying("From one place three arms go out, rough like sandpaper, paler than the rubber beside them."),
        ),
    ),
    "exposed-cord": Condition(
        "sidewall",
        "exposed-cord",
        (
            saying("Over a long place the rubber is gone, and on the ground threads lie side by side."),
            saying("A long hollow with a ragged edge shows fine twisted threads, pale beside dark rubber."),
        ),
        (
            saying("Over a long place the rubber is rough and dull, and its scratches lie side by side."),
            saying("A long patch with a ragged edge shows fine scratches, pale beside the darker rubber."),
        ),
    ),
    "contamination": Condition(
        "sidewall",
        "contamination",
        (
            saying("A dark shining area stands higher than the rubber around it and is puckered like orange peel."),
            saying("The skin is dark and wavy over one area, with small bright spots, and its edge is soft."),
        ),
        (
            saying("A dark shining area lies as high as the rubber around it, and its edge is sharp like a coast."),
            saying("The skin is dark and smooth over one area, with one bright rim, and its edge is sharp."),
        ),
    ),
}
