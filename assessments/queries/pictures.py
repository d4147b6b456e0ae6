"""The pictures that a question shows, for those to whom the question is open, and the photographs of a shop that one
can show."""

from collections.abc import Collection
from datetime import datetime
from uuid import UUID

from django.http import Http404

from assessments.models import Attempt, FormItem, Purpose
from assessments.questions import Photo, Picture
from training.models import Photograph, Shop, User
from training.queries import photographs_in, picture_file, standing_photographs


def picture_asked(
    shop: Shop, learner: User, reference: UUID, position: int, number: int, *, purpose: str, at: datetime
) -> bytes:
    """One picture of a question of a person's own, of an assessment while it is open. Raises Http404.

    One query, and another for a photograph, which stays where it was asked though it was taken back.

    Of the key that lies beside it, only what the picture is computed from is loaded.
    """
    found = FormItem.objects.filter(
        form__reference=reference, form__shop=shop, form__learner=learner, form__purpose=purpose, position=position
    )
    columns = ("snapshot__content__figure", "form__attempt__closes_at", "form__attempt__handed_in_at")
    for figure, closes_at, handed_in_at in found.order_by().values_list(*columns):
        is_open = Attempt(closes_at=closes_at, handed_in_at=handed_in_at).is_open(at)
        if figure and (is_open or purpose == Purpose.PRACTICE):
            return one_shown(shop, Picture.from_json(figure), number)
    raise Http404


def one_shown(shop: Shop, figure: Picture, number: int) -> bytes:
    """The picture or photograph of this number, counted from 1; a query for a photograph. Raises Http404."""
    return one_file(figure, number) if figure.photo is None else _photograph(shop, figure.photo, number)


def one_file(figure: Picture, number: int) -> bytes:
    """The picture of this number, counted from 1. Raises Http404 where there is none."""
    if not 1 <= number <= len(figure.sights):
        raise Http404
    return picture_file(figure.sights[number - 1].parameters)


def picture_files(figure: Picture | None) -> list[bytes]:
    """All pictures of a figure in their order, none for a drawing."""
    return [] if figure is None else [picture_file(one.parameters) for one in figure.sights]


def photographs_to_ask(shop: Shop, casings: Collection[str] | None) -> tuple[Photo, ...]:
    """The photographs that practice about these casings, about all for None, can show; one query."""
    rows = (
        standing_photographs(shop)
        .order_by("pk")
        .values_list("reference", "condition", "look_alike", "casing", "confirmed_at")
    )
    return tuple(
        Photo(str(reference), condition, look_alike, casing, is_confirmed=confirmed_at is not None)
        for reference, condition, look_alike, casing, confirmed_at in rows
        if casings is None or casing in casings
    )


def photograph_shown(shop: Shop, figure: Picture | None) -> Photograph | None:
    """What the shop says today of the photograph that a question shows; no query where it shows none."""
    if figure is None or figure.photo is None:
        return None
    return photographs_in(shop).filter(reference=figure.photo.reference).first()


def _photograph(shop: Shop, photo: Photo, number: int) -> bytes:
    rows = Photograph.objects.filter(shop=shop, kept_at__isnull=False, reference=photo.reference)
    content = rows.values_list("content", flat=True).first()
    if number != 1 or content is None:
        raise Http404
    return bytes(content)
