"""Assessments: started on a clock that the server keeps, answered one by one, handed in once."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import uuid4

from django.db import transaction
from django.utils.timezone import localtime

from assessments.acts.blueprints import keep_blueprint
from assessments.acts.draws import grounds_of, keep_items, rows_of, seed_secret, stand_in_line
from assessments.measurement.passing import Answered, Judgment, judge
from assessments.measurement.timing import Time
from assessments.models import Attempt, Form, FormItem, Moment, Outcome, Purpose, Reach, Response
from assessments.queries import State, Theory, off_in, plan_of, shown_to, theory_of, times_in
from assessments.questions import Blueprint as Terms
from assessments.questions import Item, Mark, draw_form, from_canonical, mark, short_of
from training.locks import compute_then_keep
from training.models import Shop, User
from training.queries import edition_of, units_of
from training.rows import Values, insert, ready, update
from training.trade.days import written_instant, written_time
from training.trade.speech import say


class NotNow(Exception):
    """An assessment cannot be started, or a round not be given, now; the message says what to do instead."""


class AttemptClosed(Exception):
    """The attempt takes no more answers; the message says since when."""


class StaleAnswer(Exception):
    """Another tab saved an answer since this page was loaded; the message says when."""


def start_assessment(*, shop: Shop, learner: User, terms: Terms, at: datetime) -> Attempt:
    """Draw a form for this person and start its clock; an open assessment goes on instead. Raises NotNow."""
    attempt = draw_attempt(
        shop=shop,
        learner=learner,
        terms=terms,
        purpose=Purpose.ASSESSMENT,
        at=at,
        closes_at=at + timedelta(minutes=terms.minutes),
    )
    if attempt.form.purpose == Purpose.PAPER:
        raise NotNow(say("A paper is printed for you. Sit that one, or ask your trainer to withdraw it."))
    return attempt


def draw_attempt(
    *,
    shop: Shop,
    learner: User,
    terms: Terms,
    purpose: Purpose,
    at: datetime,
    closes_at: datetime,
    beside: Callable[[Attempt], object] | None = None,
) -> Attempt:
    """The assessment of this scope that the person has open, on screen or on paper; where there is none, a form drawn
    by the shop's plan with its attempt, open until `closes_at`, and what `beside` stores in the same transaction.

    Raises NotNow, also while one of another scope is open.
    """
    close_overdue(at=at, shop=shop, learner=learner)  # counts even when no new one may start

    def keep(drawn: tuple[Form, list[Values]]) -> Attempt:
        form, rows = drawn
        form.save()
        keep_items(form, rows)
        attempt = Attempt.objects.create(
            form=form, started_at=at, closes_at=closes_at, open_for=Attempt.seat(shop, learner)
        )
        if beside is not None:
            beside(attempt)
        return attempt

    return compute_then_keep(
        found=lambda: _open_attempt(shop, learner, terms, at),
        rests_on=lambda: grounds_of(shop, learner),
        compute=lambda grounds: _drawn(grounds.rules.shop, learner, terms, purpose, at),
        lock=lambda: stand_in_line(shop=shop, learner=learner),
        keep=keep,
        refusal=NotNow(say("The shop's rules are being changed at this moment; press again.")),
    )


def _open_attempt(shop: Shop, learner: User, terms: Terms, at: datetime) -> Attempt | None:
    """The assessment of this scope that the person has open; None when a new one may begin. Raises NotNow."""
    theory = theory_of(shop, learner, terms)
    if theory.open is not None:
        return theory.open
    match theory.state(at):
        case State.PASSED:
            raise NotNow(say("You have passed this assessment. To renew, ask your trainer for a new round."))
        case State.USED_UP:
            raise NotNow(
                say("All {attempts} attempts are used. Ask your trainer for a new round.", attempts=terms.attempts)
            )
        case State.BUSY:
            raise NotNow(_busy_words(theory))
        case State.WAIT:
            raise NotNow(
                say("You may start again from {instant}.", instant=written_instant(localtime(theory.waits_until)))
            )
    return None


def _busy_words(theory: Theory) -> str:
    """Which assessment of another scope stands in the way."""
    if theory.elsewhere is None or theory.elsewhere.form.blueprint is None:
        return say("Only one may be open at a time: hand that one in first.")
    title = theory.elsewhere.form.blueprint.title
    if theory.elsewhere.form.purpose == Purpose.PAPER:
        return say('"{title}" is open on paper. Only one may be open at a time: hand that one in first.', title=title)
    return say('"{title}" is open on the screen. Only one may be open at a time: hand that one in first.', title=title)


def _drawn(shop: Shop, learner: User, terms: Terms, purpose: Purpose, at: datetime) -> tuple[Form, list[Values]]:
    """A form drawn for this person by the shop's plan, with its items; of them nothing is stored yet."""
    edition, plan, units = edition_of(shop), plan_of(shop, terms), units_of(shop)
    reference = uuid4()
    items = draw_form(
        plan,
        secret=seed_secret(),
        form_id=str(reference),
        edition=edition,
        prefer=shop.units,
        units=units,
        shown=shown_to(shop, learner),
        off=off_in(shop),
    )
    form = Form(
        reference=reference,
        shop=shop,
        learner=learner,
        purpose=purpose,
        blueprint=keep_blueprint(plan, shop=shop),
        edition=edition.name,
        edition_version=edition.version,
        units=shop.units,
        size=len(items),
        short_of=short_of(items, plan),
        drawn_at=at,
    )
    return form, rows_of(items, edition=edition, prefer=shop.units, units=units)


@transaction.atomic
def record_response(
    *, attempt: Attempt, position: int, answer: str, revision: int, at: datetime, flag: bool | None = None
) -> Response | None:
    """Keep one answer, and whether the question is flagged to come back to; None when there was nothing to keep.

    Each change is kept beside it for good. The same answer again changes nothing. Raises AttemptClosed after the
    deadline or the hand-in, and StaleAnswer when `revision` is not the one that stands and the answer is another.
    """
    attempt = Attempt.objects.select_for_update(no_key=True).only("handed_in_at", "closes_at").get(pk=attempt.pk)
    if not attempt.is_open(at):
        raise AttemptClosed(_closing_words(attempt))
    found = list(Response.objects.filter(attempt_id=attempt.pk, position=position))
    if not found:
        if not answer and flag is None:
            return None
        if answer:
            Moment.objects.create(attempt=attempt, position=position, at=at, answer=answer, revision=1)
        return Response.objects.create(
            attempt=attempt,
            position=position,
            answer=answer,
            is_flagged=bool(flag),
            revision=1 if answer else 0,
            saved_at=at,
        )
    response, changed = found[0], []
    if response.answer != answer:
        if revision != response.revision:
            raise StaleAnswer(
                say(
                    "Question {position} was answered in another window at {time}; that answer is shown now. "
                    "Change it here if you want another.",
                    position=position,
                    time=written_time(localtime(response.saved_at)),
                )
            )
        response.answer, response.saved_at, response.revision = answer, at, revision + 1
        changed += ["answer", "saved_at", "revision"]
        Moment.objects.create(attempt=attempt, position=position, at=at, answer=answer, revision=response.revision)
    if flag is not None and flag != response.is_flagged:
        response.is_flagged = flag
        changed.append("is_flagged")
    if changed:
        response.save(update_fields=changed)
    return response


def note_shown(*, attempt: Attempt, position: int, at: datetime) -> None:
    """Keep that a question was shown at this instant, or with `position` 0 the page before handing in; once."""
    Moment.objects.bulk_create([Moment(attempt=attempt, position=position, at=at)], ignore_conflicts=True)


def _closing_words(attempt: Attempt) -> str:
    if attempt.handed_in_at is not None:
        return say(
            "This assessment was handed in at {time}. An answer that comes later does not count; it is kept, and your "
            "trainer sees it.",
            time=written_time(localtime(attempt.handed_in_at)),
        )
    return say(
        "The clock ran out at {time}. An answer that comes later does not count; it is kept, and your trainer sees it.",
        time=written_time(localtime(attempt.closes_at)),
    )


def hand_in(*, attempt: Attempt, at: datetime) -> Attempt:
    """Mark every answer by the stored snapshot and set the outcome. Handed in before: nothing changes."""
    return mark_and_close(attempt, at, may=lambda: None)


@dataclass(frozen=True)
class _Marked:
    """What the marking of an attempt came to, its responses ready to be stored: those there are, and those of
    questions without an answer."""

    responses: list[Values]
    unanswered: list[Values]
    by_skill: dict[str, list[int]]
    judgment: Judgment


_MARKS = ("is_right", "is_unsafe", "misconceptions", "reach", "first_shown_at", "seconds")
_UNTOUCHED = ("answer", "is_flagged", "revision", "saved_at")
_PLACE = ("attempt", "position")


def mark_and_close(attempt: Attempt, at: datetime, *, may: Callable[[], object]) -> Attempt:
    """What `hand_in` does, where `may` raises no refusal."""
    rows = list(FormItem.objects.filter(form=attempt.form_id).only("position", "skill", "snapshot"))
    rule, is_on_screen = attempt.rule, attempt.form.purpose == Purpose.ASSESSMENT
    ended_at = at if attempt.closes_at is None else min(at, attempt.closes_at)
    known: dict[tuple[int, str], Mark] = {}  # so that only what was answered meanwhile is marked again

    def standing() -> Attempt:
        return Attempt.objects.select_related("form__blueprint").defer("form__blueprint__cells").get(pk=attempt.pk)

    def found() -> Attempt | None:
        may()
        done = Attempt.objects.filter(pk=attempt.pk, handed_in_at__isnull=False)
        return standing() if done.exists() else None

    def answered() -> tuple[datetime | None, list[tuple[int, str]]]:
        """Since when the attempt is handed in, and its answers by position."""
        answers = Response.objects.filter(attempt=attempt).order_by("position").values_list("position", "answer")
        return Attempt.objects.values_list("handed_in_at", flat=True).get(pk=attempt.pk), list(answers)

    def marked(answered: tuple[datetime | None, list[tuple[int, str]]]) -> _Marked:
        given = dict(answered[1])
        by_skill: dict[str, list[int]] = {}
        marks: dict[int, Mark] = {}
        answers: list[Answered] = []
        for row in rows:
            answer = given.get(row.position, "")
            if (row.position, answer) not in known:
                known[row.position, answer] = mark(Item.from_json(row.snapshot), from_canonical(answer))
            marks[row.position] = one = known[row.position, answer]
            answers.append(Answered(row.skill, one.right, one.unsafe, one.misconceptions))
            tally = by_skill.setdefault(row.skill, [0, 0])
            tally[0] += one.right
            tally[1] += 1
        times = times_in(attempt, ended_at=ended_at, stays=True) if is_on_screen else None
        rows_marked = [
            _response(attempt, position, given.get(position, ""), marks[position], times) for position in marks
        ]
        for response in rows_marked:
            response.saved_at, response.revision = ended_at, 0
        return _Marked(
            responses=ready((one for one in rows_marked if one.position in given), (*_MARKS, *_PLACE)),
            unanswered=ready(
                (one for one in rows_marked if one.position not in given), (*_UNTOUCHED, *_MARKS, *_PLACE)
            ),
            by_skill=by_skill,
            judgment=judge(rule, answers),
        )

    return compute_then_keep(
        found=found,
        rests_on=answered,
        compute=marked,
        lock=lambda: Attempt.objects.select_for_update(no_key=True).get(pk=attempt.pk),
        keep=lambda marked: _close(standing(), at, marked),
        refusal=NotNow(say("Answers were still coming in; nothing was handed in. Hand in again.")),
    )


def _response(attempt: Attempt, position: int, answer: str, mark: Mark, times: Mapping[int, Time] | None) -> Response:
    """A marked response; without `times` it was given on paper, where an answer is all that is seen."""
    time = Time() if times is None else times.get(position, Time())
    unanswered = "" if times is None else Reach.SKIPPED if position in times else Reach.NOT_REACHED
    return Response(
        attempt=attempt,
        position=position,
        answer=answer,
        is_right=mark.right,
        is_unsafe=mark.unsafe,
        misconceptions=list(mark.misconceptions),
        reach=Reach.ANSWERED if answer else unanswered,
        first_shown_at=time.first_shown_at,
        seconds=None if times is None else time.seconds,
    )


def _close(attempt: Attempt, at: datetime, marked: _Marked) -> Attempt:
    """Store the marks of an attempt and its outcome."""
    if attempt.closes_at is None:
        raise ValueError(f"attempt: {attempt} is not accepted; give an assessment")
    # the responses first: once the attempt is handed in, the database lets nothing of it change
    update(Response, _MARKS, key=_PLACE, rows=marked.responses)
    insert(Response, (*_UNTOUCHED, *_MARKS, *_PLACE), marked.unanswered)
    judgment = marked.judgment
    attempt.handed_in_at = min(at, attempt.closes_at)
    attempt.right_count, attempt.unsafe_count, attempt.by_skill = judgment.right, judgment.unsafe, marked.by_skill
    attempt.outcome = attempt.first_outcome = Outcome.PASSED if judgment.passed else Outcome.NOT_PASSED
    attempt.open_for = ""
    counts = ["right_count", "unsafe_count", "by_skill"]
    attempt.save(update_fields=["handed_in_at", *counts, "outcome", "first_outcome", "open_for"])
    return attempt


def close_overdue(*, at: datetime, shop: Shop | None = None, learner: User | None = None) -> int:
    """Hand in assessments whose clock ran out, all or one person's; answers saved until then count. How many."""
    overdue = Attempt.objects.filter(handed_in_at=None, closes_at__lt=at).exclude(open_for="")
    if shop is not None and learner is not None:
        overdue = overdue.filter(open_for=Attempt.seat(shop, learner))
    found = list(overdue.order_by("pk"))
    for attempt in found:
        hand_in(attempt=attempt, at=at)
    return len(found)
