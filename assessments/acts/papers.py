"""An assessment on paper: printed for one person, its answers typed in by a trainer, handed in like any other."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from django.db import transaction

from assessments.acts.assessment import AttemptClosed, NotNow, draw_attempt, mark_and_close, store_again
from assessments.models import Attempt, Paper, Purpose, Response
from assessments.questions import Blueprint as Terms
from training.models import Shop, User

OPEN_DAYS = 30  # to sit it and type it in; after that it is handed in with the answers it has


def make_paper(*, shop: Shop, learner: User, terms: Terms, made_by: User, at: datetime) -> Paper:
    """Draw a form to print for this person; a paper that is out already stands instead. Raises NotNow."""
    if learner == made_by:
        raise NotNow("A paper for yourself must come from another trainer: its maker can see the key.")
    attempt = draw_attempt(
        shop=shop,
        learner=learner,
        terms=terms,
        purpose=Purpose.PAPER,
        at=at,
        closes_at=at + timedelta(days=OPEN_DAYS),
        beside=lambda attempt: Paper.objects.create(form=attempt.form, made_by=made_by, made_at=at),
    )
    if attempt.form.purpose != Purpose.PAPER:
        raise NotNow(f"{learner.name} has an assessment open on the screen; a paper can be made when it is handed in.")
    return Paper.objects.select_related("form").get(form=attempt.form)


@transaction.atomic
def type_answers(*, paper: Paper, answers: Mapping[int, str], typed_by: User, at: datetime) -> None:
    """Keep the answers of a paper by position, "" for none, and who typed them. The same again changes nothing.

    Raises AttemptClosed once it is handed in or withdrawn, ValueError for a position it does not have.
    """
    attempt = _open_attempt_of(paper, at)
    if beyond := sorted(position for position in answers if not 1 <= position <= attempt.form.size):
        raise ValueError(f"positions {beyond} are not accepted; the paper has 1 to {attempt.form.size}")
    kept = {response.position: response for response in Response.objects.filter(attempt=attempt)}
    new, changed = [], []
    for position, answer in sorted(answers.items()):
        response = kept.get(position)
        if response is None:
            if answer:
                new.append(Response(attempt=attempt, position=position, answer=answer, saved_at=at))
        elif response.answer != answer:
            response.answer, response.saved_at, response.revision = answer, at, response.revision + 1
            changed.append(response)
    Response.objects.bulk_create(new)
    store_again(changed, "answer", "saved_at", "revision")
    rows = Paper.objects.filter(pk=paper.pk)
    (rows if new or changed else rows.filter(typed_at=None)).update(typed_by=typed_by, typed_at=at)


def hand_in_paper(*, paper: Paper, at: datetime) -> Attempt:
    """Mark the typed answers like those of the screen. Handed in before: nothing changes.

    Raises AttemptClosed for a paper that was withdrawn, NotNow while nothing was typed in.
    """

    def may() -> None:
        standing = Paper.objects.get(pk=paper.pk)
        if standing.withdrawn_at is not None:
            raise AttemptClosed("This paper was withdrawn; nothing was handed in.")
        if standing.typed_at is None and not standing.form.attempt.handed_in_at:
            raise NotNow("No answers are typed in yet: type them in, then hand in.")

    return mark_and_close(Attempt.objects.get(form=paper.form_id), at, may=may)


@transaction.atomic
def withdraw_paper(*, paper: Paper, by: User, reason: str, at: datetime) -> Paper:
    """Take back a paper that nobody sat; it counts as no attempt. Withdrawn before: nothing changes.

    Raises AttemptClosed once answers are typed in: then it counts.
    """
    paper = Paper.objects.select_for_update(of=("self",)).select_related("form__attempt").get(pk=paper.pk)
    if paper.withdrawn_at is not None:
        return paper
    attempt: Attempt = paper.form.attempt
    if attempt.handed_in_at is not None or paper.typed_at is not None:
        raise AttemptClosed("Answers of this paper are typed in, so it counts and cannot be withdrawn.")
    paper.withdrawn_at, paper.withdrawn_by, paper.withdrawn_because = at, by, reason
    # the paper first: once its attempt is closed, the database lets nothing of it change
    paper.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_because"])
    attempt.handed_in_at, attempt.open_for = at, ""
    attempt.save(update_fields=["handed_in_at", "open_for"])
    return paper


def _open_attempt_of(paper: Paper, at: datetime) -> Attempt:
    """The attempt of a paper, locked, while it takes answers. Raises AttemptClosed."""
    attempt = Attempt.objects.select_for_update(of=("self",)).select_related("form").get(form=paper.form_id)
    if not attempt.is_open(at):
        raise AttemptClosed("This paper takes no more answers: it was handed in, withdrawn, or its time ran out.")
    return attempt
