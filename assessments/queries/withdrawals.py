"""Questions that were asked: which were withdrawn, which answers count, and what a trainer may look at again."""

from dataclasses import dataclass
from uuid import UUID

from django.db.models import Count, Exists, OuterRef, QuerySet, Subquery
from django.http import Http404

from assessments.models import Attempt, DrawFlag, FormItem, Outcome, Purpose, Response, Withdrawal
from assessments.questions import Answer, Item, from_canonical
from training.models import Shop, User


def that_count(responses: QuerySet[Response]) -> QuerySet[Response]:
    """The responses to questions that were not withdrawn; no query of its own."""
    gone = Withdrawal.objects.filter(
        taken_back_at=None, item__form=OuterRef("attempt__form"), item__position=OuterRef("position")
    )
    return responses.filter(~Exists(gone))


def withdrawn_in(form_id: int) -> dict[int, Withdrawal]:
    """The questions of a form that do not count now, by position; one query."""
    rows = Withdrawal.objects.filter(item__form=form_id, taken_back_at=None).select_related("by", "item")
    return {row.item.position: row for row in rows.order_by("item__position").defer("item__open", "item__snapshot")}


def withdrawn_count() -> Subquery:
    """How many questions of an attempt do not count, None for none, to annotate attempts with."""
    gone = Withdrawal.objects.filter(item__form=OuterRef("form"), taken_back_at=None).order_by()
    return Subquery(gone.values("item__form").annotate(count=Count("pk")).values("count"))


def fallen_in(shop: Shop) -> list[tuple[Attempt, bool]]:
    """Assessments that were a pass when they were handed in and are none without what was withdrawn since; for each
    whether there is a later one of the person's in the same scope. One query."""
    later = Attempt.objects.filter(
        form__shop=shop,
        form__learner=OuterRef("form__learner"),
        form__blueprint__scope=OuterRef("form__blueprint__scope"),
        handed_in_at__gt=OuterRef("handed_in_at"),
    ).exclude(outcome="")
    rows = (
        Attempt.objects.filter(form__shop=shop, first_outcome=Outcome.PASSED, outcome=Outcome.NOT_PASSED)
        .annotate(is_superseded=Exists(later))
        .select_related("form__learner", "form__blueprint")
        .defer("form__blueprint__cells")
        .order_by("handed_in_at", "pk")
    )
    return [(one, one.is_superseded) for one in rows]


@dataclass(frozen=True, slots=True)
class AskedLine:
    """One question of an attempt in the list a trainer chooses from; `is_right` None where it was never answered."""

    position: int
    family: str
    reach: str
    is_right: bool | None
    is_unsafe: bool
    is_withdrawn: bool
    flags: int


@dataclass(frozen=True)
class Asked:
    """One question that was asked and answered: with its key, what was answered, who doubted it, who withdrew it."""

    row: FormItem
    item: Item
    answer: Answer
    is_right: bool
    flags: tuple[DrawFlag, ...]
    withdrawals: tuple[Withdrawal, ...]

    @property
    def withdrawn(self) -> Withdrawal | None:
        """Why it does not count now; None while it does."""
        return next((one for one in self.withdrawals if one.taken_back_at is None), None)


def attempt_looked_at(shop: Shop, reader: User, reference: UUID) -> Attempt:
    """An attempt whose questions a trainer or owner may look at again: somebody else's, an assessment once it is handed
    in, a practice as far as it is answered; one query. Raises Http404."""
    found = (
        Attempt.objects.filter(form__shop=shop, form__reference=reference)
        .exclude(form__learner=reader)
        .select_related("form__learner", "form__blueprint")
        .defer("form__blueprint__cells")
        .first()
    )
    if found is None or (found.form.purpose != Purpose.PRACTICE and not found.outcome):
        raise Http404
    return found


def asked_in(attempt: Attempt) -> list[AskedLine]:
    """The questions of an attempt that can be looked at again; four queries."""
    marks = {
        position: (reach, is_right, is_unsafe is True)
        for position, reach, is_right, is_unsafe in Response.objects.filter(attempt=attempt).values_list(
            "position", "reach", "is_right", "is_unsafe"
        )
    }
    gone = withdrawn_in(attempt.form_id)
    flagged = list(DrawFlag.objects.filter(item__form=attempt.form_id).values_list("item__position", flat=True))
    rows = FormItem.objects.filter(form=attempt.form_id).order_by("position").values_list("position", "family")
    return [
        AskedLine(position, family, *marks[position], position in gone, flagged.count(position))
        for position, family in rows
        if position in marks
    ]


def question_asked(attempt: Attempt, position: int) -> Asked:
    """One question of such an attempt; four queries. Raises Http404 where it was not answered yet."""
    response = Response.objects.filter(attempt=attempt, position=position).first()
    row = FormItem.objects.filter(form=attempt.form_id, position=position).first()
    if response is None or row is None:
        raise Http404
    return Asked(
        row=row,
        item=Item.from_json(row.snapshot),
        answer=from_canonical(response.answer),
        is_right=bool(response.is_right),
        flags=tuple(DrawFlag.objects.filter(item=row).select_related("by", "resolved_by")),
        withdrawals=tuple(Withdrawal.objects.filter(item=row).select_related("by", "taken_back_by")),
    )


def own_question(shop: Shop, learner: User, reference: UUID, position: int, *purposes: str) -> FormItem:
    """A question of a person's own that they answered for good, without its key; at most three queries. Raises
    Http404."""
    found = (
        FormItem.objects.filter(form__shop=shop, form__learner=learner, form__reference=reference, position=position)
        .filter(form__purpose__in=purposes)
        .select_related("form__attempt")
        .defer("open", "snapshot")
        .first()
    )
    if found is None or not is_answered(found):
        raise Http404
    return found


def is_answered(row: FormItem) -> bool:
    """Was the answer to this question given for good? One query at most."""
    attempt = Attempt.objects.filter(form=row.form_id).only("outcome", "form").first()
    if attempt is None:
        return False
    if row.form.purpose != Purpose.PRACTICE:
        return bool(attempt.outcome)
    return Response.objects.filter(attempt=attempt, position=row.position).exists()
