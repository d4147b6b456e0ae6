"""An assessment on paper: printed for one person, its answers typed in by a trainer, handed in like any other."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from django.db import transaction

from assessments.acts.assessment import AttemptClosed, NotNow, draw_attempt, mark_and_close
from assessments.models import Attempt, Moment, Paper, Purpose, Response
from assessments.questions import Blueprint as Terms
from training.locks import compute_then_keep
from training.models import Shop, User
from training.rows import Values, insert, ready, update
from training.trade.speech import say

_NEW = ("is_flagged", "misconceptions", "reach")
_TYPED, _PLACE = ("answer", "saved_at", "revision"), ("attempt", "position")
_MOMENT = ("attempt", "position", "at", "answer", "revision")
OPEN_DAYS = 30  # to sit it and type it in; after that it is handed in with the answers it has


def make_paper(*, shop: Shop, learner: User, terms: Terms, made_by: User, at: datetime) -> Paper:
    """Draw a form to print for this person; a paper that is out already stands instead. Raises NotNow."""
    if learner == made_by:
        raise NotNow(say("A paper for yourself must come from another trainer: its maker can see the key."))
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
        raise NotNow(
            say(
                "{learner} has an assessment open on the screen; a paper can be made when it is handed in.",
                learner=learner.name,
            )
        )
    return Paper.objects.select_related("form").get(form=attempt.form)


def type_answers(*, paper: Paper, answers: Mapping[int, str], typed_by: User, at: datetime) -> None:
    """Keep the answers of a paper by position, "" for none, and who typed them. The same again changes nothing.

    Raises AttemptClosed once it is handed in or withdrawn, ValueError for a position it does not have.
    """
    attempt = Attempt.objects.select_related("form").get(form=paper.form_id)
    if beyond := sorted(position for position in answers if not 1 <= position <= attempt.form.size):
        raise ValueError(f"positions {beyond} are not accepted; the paper has 1 to {attempt.form.size}")

    def kept() -> tuple[bool, list[tuple[int, str, int]]]:
        """Whether answers are still taken, and those there are with their revisions by position."""
        rows = Response.objects.filter(attempt=attempt).order_by("position")
        is_open = Attempt.objects.only("handed_in_at", "closes_at").get(pk=attempt.pk).is_open(at)
        return is_open, list(rows.values_list("position", "answer", "revision"))

    def typed(kept: tuple[bool, list[tuple[int, str, int]]]) -> tuple[list[Values], list[Values], list[Values]]:
        """The rows to add and to change, and what is kept of each change, ready to be stored."""
        is_open, rows = kept
        if not is_open:
            raise AttemptClosed(
                say("This paper takes no more answers: it was handed in, withdrawn, or its time ran out.")
            )
        known = {position: (answer, revision) for position, answer, revision in rows}
        new: list[Response] = []
        changed: list[Response] = []
        for position, answer in sorted(answers.items()):
            standing, revision = known.get(position, ("", 0))
            row = Response(attempt=attempt, position=position, answer=answer, saved_at=at, revision=revision + 1)
            if answer != standing:
                (changed if position in known else new).append(row)
        moments = [
            Moment(attempt=attempt, position=one.position, at=at, answer=one.answer, revision=one.revision)
            for one in (*new, *changed)
        ]
        return (
            ready(new, (*_NEW, *_TYPED, *_PLACE)),
            ready(changed, (*_TYPED, *_PLACE)),
            ready(moments, _MOMENT),
        )

    def keep(typed: tuple[list[Values], list[Values], list[Values]]) -> None:
        new, changed, moments = typed
        insert(Moment, _MOMENT, moments)
        insert(Response, (*_NEW, *_TYPED, *_PLACE), new)
        update(Response, _TYPED, key=_PLACE, rows=changed)
        rows = Paper.objects.filter(pk=paper.pk)
        (rows if new or changed else rows.filter(typed_at=None)).update(typed_by=typed_by, typed_at=at)

    compute_then_keep(
        rests_on=kept,
        compute=typed,
        lock=lambda: Attempt.objects.select_for_update(no_key=True).get(pk=attempt.pk),
        keep=keep,
        refusal=AttemptClosed(say("Answers of this paper are being typed in by somebody else; load the page again.")),
    )


def hand_in_paper(*, paper: Paper, at: datetime) -> Attempt:
    """Mark the typed answers like those of the screen. Handed in before: nothing changes.

    Raises AttemptClosed for a paper that was withdrawn, NotNow while nothing was typed in.
    """

    def may() -> None:
        standing = Paper.objects.get(pk=paper.pk)
        if standing.withdrawn_at is not None:
            raise AttemptClosed(say("This paper was withdrawn; nothing was handed in."))
        if standing.typed_at is None and not standing.form.attempt.handed_in_at:
            raise NotNow(say("No answers are typed in yet: type them in, then hand in."))

    return mark_and_close(Attempt.objects.get(form=paper.form_id), at, may=may)


@transaction.atomic
def withdraw_paper(*, paper: Paper, by: User, reason: str, at: datetime) -> Paper:
    """Take back a paper that nobody sat; it counts as no attempt. Withdrawn before: nothing changes.

    Raises AttemptClosed once answers are typed in: then it counts.
    """
    # the attempt first, as whoever types answers in does: each would wait for the other
    attempt = Attempt.objects.filter(form=paper.form_id)
    handed_in_at = attempt.select_for_update(no_key=True).values_list("handed_in_at", flat=True).get()
    paper = Paper.objects.select_for_update(of=("self",), no_key=True).select_related("form").get(pk=paper.pk)
    if paper.withdrawn_at is not None:
        return paper
    if handed_in_at is not None or paper.typed_at is not None:
        raise AttemptClosed(say("Answers to this paper have been typed in, so it counts and cannot be withdrawn."))
    paper.withdrawn_at, paper.withdrawn_by, paper.withdrawn_because = at, by, reason
    # the paper first: once its attempt is closed, the database lets nothing of it change
    paper.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_because"])
    attempt.update(handed_in_at=at, open_for="")
    return paper
