"""How a condition and what is taken for it are called, and by what the rulebook rules on either."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from training.pictures.conditions import CONDITIONS
from training.trade.speech import saying


@dataclass(frozen=True, slots=True)
class Named:
    """A condition and what is taken for it, by their names; `quantity` is that of the rulebook on the condition."""

    shown: str
    look_alike: str
    quantity: str

    def words(self, look_alike: bool) -> str:
        """The name of the one or of the other."""
        return self.look_alike if look_alike else self.shown


# What is taken for a condition and is a finding too.
FOUND_TOO: Mapping[str, str] = {"ozone-cracking": "weather-checking"}
_FINDING = "finding."


def found_in(condition: str, look_alike: bool) -> dict[str, bool]:
    """What either means for a case, by findings that are there or not; none where the rulebook judges a repair by it.

    >>> found_in("bulge", look_alike=True)
    {'bulge': False}
    """
    quantity = NAMED[condition].quantity
    if not quantity.startswith(_FINDING):
        return {}
    too = {FOUND_TOO[condition]: True} if look_alike and condition in FOUND_TOO else {}
    return {quantity.removeprefix(_FINDING): not look_alike, **too}


def _named(condition: str, shown: str, look_alike: str, quantity: str = "") -> tuple[str, Named]:
    return condition, Named(shown, look_alike, quantity or f"{_FINDING}{CONDITIONS[condition].finding}")


NAMED: Mapping[str, Named] = dict(
    (
        _named("ozone-cracking", saying("Ozone cracks"), saying("Fine weather checking")),
        _named("bulge", saying("A bulge"), saying("A hollow from how it was built")),
        _named("impact-damage", saying("A break from an impact"), saying("Scratches in the skin")),
        _named("exposed-cord", saying("Cord laid bare"), saying("A scuffed place")),
        _named("contamination", saying("Rubber swollen by oil"), saying("A wet place")),
        _named("bead-damage", saying("A torn bead"), saying("Flash from the mold")),
        _named("excessive-wear", saying("Tread worn to the cord"), saying("A wear bar below the blocks")),
        _named(
            "wear-indicators-flush",
            saying("A wear bar level with the blocks"),
            saying("A wear bar far below the blocks"),
        ),
        _named("chunking", saying("Pieces torn out of the tread"), saying("Nicks in the blocks")),
        _named("tread-separation", saying("A tread edge coming loose"), saying("A closed seam")),
        _named("uneven-wear-separation", saying("One spot worn low"), saying("Dried mud")),
        _named("run-flat-damage", saying("A ring from running flat"), saying("Dried mounting lubricant")),
        _named("liner-cracked", saying("A splice that gapes"), saying("A closed splice")),
        _named("liner-separation", saying("Liner coming loose"), saying("A mark pressed in by the mold")),
        _named("liner-blistered", saying("Blisters"), saying("Dried drops")),
        _named(
            "lifted-repair-edge",
            saying("A repair unit with a lifted edge"),
            saying("A repair unit, bonded all around"),
            "repair.sound",
        ),
        _named(
            "bubble-under-unit",
            saying("A repair unit with air under it"),
            saying("A repair unit, bonded all over"),
            "repair.sound",
        ),
        _named("string-without-unit", saying("A string plug alone"), saying("A pip from the mold"), "repair.kind"),
        _named("poor-buffing", saying("Gouged and burnt buffing"), saying("Even buffing"), "job.buff_texture"),
    )
)
