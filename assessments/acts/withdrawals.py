"""Questions that were asked and are doubted: flagged by whoever was asked, withdrawn by a trainer, and taken back."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.utils.timezone import localtime

from assessments.acts.bench import FlagRefused
from assessments.measurement.passing import Answered, judge
from assessments.models import Attempt, DrawFlag, FormItem, Outcome, Purpose, Response, Withdrawal
from assessments.queries import is_answered
from training.locks import compute_then_keep
from training.models import Notice, User
from training.trade.days import written_day
from training.trade.speech import say


class WithdrawalRefused(Exception):
    """The question cannot be withdrawn, or that not be taken back; the message says why."""


@transaction.atomic
def flag_question(*, item: FormItem, comment: str, by: User, at: datetime) -> DrawFlag:
    """Keep somebody's doubt about a question that was asked. The same words again change nothing.

    Raises FlagRefused for other words while the flag stands, and before the answer was given.
    """
    if not is_answered(item):
        raise FlagRefused(say("Answer the question first; then say what seems wrong with it."))
    form = item.form
    flag, is_new = DrawFlag.objects.get_or_create(
        item=item,
        by=by,
        resolved_at=None,
        defaults={
            "shop_id": form.shop_id,
            "family": item.family,
            "edition": form.edition,
            "edition_version": form.edition_version,
            "units": form.units,
            "stem": FormItem.objects.values_list("open__content__stem", flat=True).get(pk=item.pk),
            "comment": comment,
            "at": at,
        },
    )
    if not is_new and flag.comment != comment:
        raise FlagRefused(
            say(
                "You flagged this question on {day}; your trainer looks at that flag first.",
                day=written_day(localtime(flag.at)),
            )
        )
    return flag


@dataclass(frozen=True)
class _Standing:
    """What a recount rests on: whether the attempt is closed, how many answers it has, of which none ever changes its
    mark, and which questions are withdrawn."""

    handed_in_at: datetime | None
    answers: int
    withdrawn: tuple[int, ...]


@dataclass(frozen=True)
class _Recount:
    """The counts of an attempt with and without a question."""

    by_skill: dict[str, list[int]]
    right: int
    unsafe: int
    outcome: str


def withdraw_question(*, item: FormItem, reason: str, by: User, at: datetime) -> Withdrawal:
    """Let this very question count no more, and recount the attempt it was asked in.

    Withdrawn already: nothing changes. Raises WithdrawalRefused before it was answered for good, and for one's own.
    """

    def keep(attempt: Attempt) -> Withdrawal:
        return Withdrawal.objects.create(item=item, reason=reason, by=by, at=at)

    return _recounted(
        item,
        by,
        at,
        found=lambda: Withdrawal.objects.filter(item=item, taken_back_at=None).first(),
        counts=False,
        keep=keep,
    )


def take_back_withdrawal(*, item: FormItem, reason: str, by: User, at: datetime) -> Withdrawal:
    """Let a withdrawn question count again, and recount. Taken back already: nothing changes.

    Raises WithdrawalRefused where it never was withdrawn, and for one's own.
    """
    rows = Withdrawal.objects.filter(item=item)

    def found() -> Withdrawal | None:
        latest = rows.order_by("-at", "-pk").first()
        if latest is None:
            raise WithdrawalRefused(say("This question counts: nobody has withdrawn it."))
        return latest if latest.taken_back_at is not None else None

    def keep(attempt: Attempt) -> Withdrawal:
        row = rows.get(taken_back_at=None)
        row.taken_back_at, row.taken_back_by, row.taken_back_because = at, by, reason
        row.save(update_fields=["taken_back_at", "taken_back_by", "taken_back_because"])
        return row

    return _recounted(item, by, at, found=found, counts=True, keep=keep)


def _recounted(
    item: FormItem,
    by: User,
    at: datetime,
    *,
    found: Callable[[], Withdrawal | None],
    counts: bool,
    keep: Callable[[Attempt], Withdrawal],
) -> Withdrawal:
    """What `found` gives, else what `keep` stores, with the attempt recounted; `counts` says whether the question does
    from now on."""
    if item.form.learner_id == by.pk:
        raise WithdrawalRefused(say("A question you were asked yourself is judged by another trainer or the owner."))
    if not is_answered(item):
        raise WithdrawalRefused(say("This question is not answered yet; it can be withdrawn after that."))
    standing_attempt = Attempt.objects.select_related("form__blueprint", "form__learner").defer(
        "form__blueprint__cells"
    )

    def rests_on() -> _Standing:
        gone = Withdrawal.objects.filter(item__form=item.form_id, taken_back_at=None)
        return _Standing(
            Attempt.objects.values_list("handed_in_at", flat=True).get(form=item.form_id),
            Response.objects.filter(attempt__form=item.form_id).count(),
            tuple(gone.order_by("pk").values_list("item__position", flat=True)),
        )

    def recounted(standing: _Standing) -> tuple[Attempt, _Recount, Notice | None]:
        attempt = standing_attempt.get(form=item.form_id)
        gone = {*standing.withdrawn} - {item.position} if counts else {*standing.withdrawn, item.position}
        recount = _recount(attempt, gone)
        return (
            attempt,
            recount,
            None if attempt.form.purpose == Purpose.PRACTICE else _notice(attempt, recount, item, at),
        )

    def kept(work: tuple[Attempt, _Recount, Notice | None]) -> Withdrawal:
        attempt, recount, notice = work
        row = keep(attempt)  # first: without one the database lets nothing of the attempt change
        attempt.by_skill, attempt.outcome = recount.by_skill, recount.outcome
        if attempt.handed_in_at is not None:
            attempt.right_count, attempt.unsafe_count = recount.right, recount.unsafe
        attempt.save(update_fields=["by_skill", "right_count", "unsafe_count", "outcome"])
        if notice is not None:
            notice.save()
        return row

    return compute_then_keep(
        found=found,
        rests_on=rests_on,
        compute=recounted,
        lock=lambda: Attempt.objects.select_for_update(no_key=True).only("pk").get(form=item.form_id),
        keep=kept,
        refusal=WithdrawalRefused(say("The answers around this question are changing at this moment; press again.")),
    )


def _recount(attempt: Attempt, gone: set[int]) -> _Recount:
    """The counts without the questions at these positions; of a practice those answered so far."""
    nothing: tuple[bool | None, bool | None, tuple[str, ...]] = (False, False, ())
    answered = Response.objects.filter(attempt=attempt)
    marks = {
        position: (is_right, is_unsafe, tuple(misconceptions))
        for position, is_right, is_unsafe, misconceptions in answered.values_list(
            "position", "is_right", "is_unsafe", "misconceptions"
        )
    }
    asked = FormItem.objects.filter(form=attempt.form_id).order_by("position").values_list("position", "skill")
    is_practice = attempt.form.purpose == Purpose.PRACTICE
    by_skill: dict[str, list[int]] = {}
    answers: list[Answered] = []
    for position, skill in asked:
        if position in gone or (is_practice and position not in marks):
            continue
        is_right, is_unsafe, misconceptions = marks.get(position, nothing)
        answers.append(Answered(skill, is_right is True, is_unsafe is True, misconceptions))
        tally = by_skill.setdefault(skill, [0, 0])
        tally[0] += is_right is True
        tally[1] += 1
    if is_practice:
        return _Recount(by_skill, sum(one.right for one in answers), sum(one.unsafe for one in answers), "")
    judgment = judge(attempt.rule, answers)
    outcome = Outcome.PASSED if judgment.passed else Outcome.NOT_PASSED
    return _Recount(by_skill, judgment.right, judgment.unsafe, outcome)


def _notice(attempt: Attempt, recount: _Recount, item: FormItem, at: datetime) -> Notice:
    """What the person is told whose result was recounted."""
    title = attempt.form.blueprint.title if attempt.form.blueprint else ""
    told = {
        "title": title,
        "position": item.position,
        "right": recount.right,
        "asked": sum(asked for _, asked in recount.by_skill.values()),
    }
    if recount.outcome == Outcome.PASSED:
        text = say(
            '"{title}", question {position}: the result was counted anew. Passed, {right} of {asked} right.', **told
        )
    else:
        text = say(
            '"{title}", question {position}: the result was counted anew. Not passed, {right} of {asked} right.', **told
        )
    return Notice(shop_id=attempt.form.shop_id, person=attempt.form.learner, text=text, written_at=at)
