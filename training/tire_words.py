"""Short names of findings and of casings for pages; their meaning is the rulebook's own."""

from collections.abc import Sequence

_NAMES = {
    "run-flat-damage": "Run-flat damage",
    "tin-unreadable": "Identification number unreadable",
    "wear-indicators-flush": "Wear indicators flush",
    "uneven-wear-separation": "Uneven wear with separation",
}

_CASINGS = {
    "passenger": "passenger tires",
    "light-truck-fabric": "light truck tires with a fabric body",
    "light-truck-steel": "light truck tires with a steel body",
    "light-truck": "light truck tires whose ply material was not read",
    "truck": "truck and bus tires",
    "motorcycle": "motorcycle tires",
}


def finding_words(slug: str) -> str:
    """The name of a finding, for example "Bead damage"."""
    return _NAMES.get(slug, slug.replace("-", " ").capitalize())


def casings_words(casings: Sequence[str]) -> str:
    """Kinds of tires in a sentence, for example "truck and bus tires, and motorcycle tires"; empty for none."""
    told = [_CASINGS[casing] for casing in casings]
    return ", and ".join(told) if len(told) < 3 else ", ".join(told[:-1]) + ", and " + told[-1]
