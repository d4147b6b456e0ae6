"""Short names of findings for pages; their meaning is the rulebook's own."""

_NAMES = {
    "run-flat-damage": "Run-flat damage",
    "tin-unreadable": "Identification number unreadable",
    "wear-indicators-flush": "Wear indicators flush",
    "uneven-wear-separation": "Uneven wear with separation",
}


def finding_words(slug: str) -> str:
    """The name of a finding, for example "Bead damage"."""
    return _NAMES.get(slug, slug.replace("-", " ").capitalize())
