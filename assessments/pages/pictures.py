"""The pictures of a question as a page shows them: each with its address and its words."""

from collections.abc import Callable
from dataclasses import dataclass

from assessments.questions import OpenPicture, Picture
from training.pictures import picture_of
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


def explained_shots(figure: Picture | None, address: Callable[[int], str]) -> list[Shot]:
    """The same after the answer: with what is to be seen."""
    seen = [] if figure is None else [picture_of(one.parameters).description for one in figure.sights]
    return [Shot(one.address, one.label, words) for one, words in zip(shots(figure, address), seen, strict=True)]
