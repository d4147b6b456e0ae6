"""Under which edition a family has something to ask: the default one where it does, else the next."""

from functools import lru_cache

from assessments.questions import family_names
from assessments.questions.draws.coverage import families_of
from training.rulebook import Edition, default_edition, edition_names, load_edition


@lru_cache(maxsize=256)
def home(name: str) -> Edition:
    """The edition a family is drawn under where a test asks for none. LookupError for a family that asks nothing."""
    for edition in map(load_edition, dict.fromkeys([default_edition(), *edition_names()])):
        if name in families_of(edition):
            return edition
    raise LookupError(f"{name}: asks nothing under any edition")


def at_home_in(edition_name: str) -> list[str]:
    """The families that a test draws under an edition."""
    return [name for name in family_names() if home(name).name == edition_name]
