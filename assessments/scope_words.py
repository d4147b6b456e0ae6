"""What people call a scope on a page: its tires, in a few words."""

from collections.abc import Sequence

_KINDS = {
    "passenger": "passenger",
    "light-truck-fabric": "fabric-body light truck",
    "light-truck-steel": "steel-body light truck",
    "light-truck": "light truck",
    "truck": "truck",
    "motorcycle": "motorcycle",
}


def tires_in_words(casings: Sequence[str]) -> str:
    """The tires of some casings, for example "Steel-body light truck and truck tires"."""
    kinds = [_KINDS[casing] for casing in casings]
    told = " and ".join(filter(None, [", ".join(kinds[:-1]), kinds[-1]]))
    return f"{told[0].upper()}{told[1:]} tires"
