"""The pictures that a question shows, for those to whom the question is open."""

from datetime import datetime
from uuid import UUID

from django.http import Http404

from assessments.models import Attempt, FormItem, Purpose
from assessments.questions import Picture
from training.models import Shop, User
from training.queries import picture_file


def picture_asked(
    shop: Shop, learner: User, reference: UUID, position: int, number: int, *, purpose: str, at: datetime
) -> bytes:
    """One picture of a question of a person's own, of an assessment while it is open; one query. Raises Http404.

    Of the key that lies beside it, only what the picture is computed from is loaded.
    """
    found = FormItem.objects.filter(
        form__reference=reference, form__shop=shop, form__learner=learner, form__purpose=purpose, position=position
    )
    columns = ("snapshot__content__figure", "form__attempt__closes_at", "form__attempt__handed_in_at")
    for figure, closes_at, handed_in_at in found.order_by().values_list(*columns):
        is_open = Attempt(closes_at=closes_at, handed_in_at=handed_in_at).is_open(at)
        if figure and (is_open or purpose == Purpose.PRACTICE):
            return one_file(Picture.from_json(figure), number)
    raise Http404


def one_file(figure: Picture, number: int) -> bytes:
    """The picture of this number, counted from 1. Raises Http404 where there is none."""
    if not 1 <= number <= figure.pictures:
        raise Http404
    return picture_file(figure.sights[number - 1].parameters)


def picture_files(figure: Picture | None) -> list[bytes]:
    """All pictures of a figure in their order, none for a drawing."""
    return [] if figure is None else [picture_file(one.parameters) for one in figure.sights]
