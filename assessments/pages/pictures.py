"""The pictures of a question as a page shows them: each with its address and its words."""

from collections.abc import Callable
from dataclasses import dataclass

from assessments.questions import OpenPicture, Photo, Picture
from training.models import Photograph
from training.pages.photographs import MANY, taken_back, who_says
from training.pictures import NAMED, picture_of
from training.trade.speech import say


@dataclass(frozen=True)
class Shot:
    """One picture. `label` stands under it where there are several, `words` in its place where it is not seen."""

    address: str
    label: str
    words: str


def shots(figure: OpenPicture | Picture | None, address: Callable[[int], str]) -> list[Shot]:
    """The pictures of a figure in their order, none for a drawing. What is to be seen in them is not said."""
    count = 0 if figure is None else figure.pictures
    if figure is None or count < 2:
        return [Shot(address(1), "", figure.description)] if figure is not None and count else []
    labels = [say("Picture {number}", number=number) for number in range(1, count + 1)]
    return [Shot(address(number), label, label) for number, label in enumerate(labels, 1)]


def explained_shots(
    figure: Picture | None, address: Callable[[int], str], photograph: Photograph | None = None
) -> list[Shot]:
    """The same after the answer: with what is to be seen. `photograph` is what the shop says today of one shown."""
    seen = [] if figure is None else [picture_of(one.parameters).description for one in figure.sights]
    if figure is not None and figure.photo is not None:
        seen = [_told(figure.photo, photograph)]
    return [Shot(one.address, one.label, words) for one, words in zip(shots(figure, address), seen, strict=True)]


def _told(photo: Photo, photograph: Photograph | None) -> str:
    """What a photograph is said to show and who says so, or that it was taken back since, and why."""
    shows = NAMED[photo.name].words(photo.look_alike)
    if photograph is None:
        return say("By your shop it shows: {shows}.", shows=shows)
    says = taken_back(photograph) or who_says(photograph, trainers=MANY)
    return say("By your shop it shows: {shows}. {says}", shows=shows, says=says)
