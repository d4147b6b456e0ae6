"""Practice: a few questions of one skill or of all, each explained as soon as it is answered."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from uuid import uuid4

from django.db import transaction

from assessments.acts.draws import Grounds, grounds_of, keep_items, rows_of, seed_secret, stand_in_line
from assessments.measurement.timing import Time
from assessments.models import Attempt, Form, FormItem, Moment, Purpose, Reach, Response, Taught
from assessments.queries import (
    casings_of_scope,
    diagnosis_of,
    off_in,
    photographs_to_ask,
    practiced_as,
    shown_to,
    terms_in,
    terms_of,
    that_count,
    times_in,
)
from assessments.questions import (
    SERIES,
    Ahead,
    Answer,
    CannotDraw,
    Item,
    NoSuchLimit,
    Photo,
    Teaching,
    Told,
    asks_about,
    draw_again,
    draw_practice,
    draw_series,
    family,
    family_names,
    from_canonical,
    mark,
    parts_of,
    series_in,
    teaching,
)
from assessments.questions import Blueprint as Terms
from training.locks import compute_then_keep
from training.models import Shop, User
from training.queries import edition_of, units_of
from training.rows import Values
from training.rulebook import OnShelf
from training.trade.speech import once_a_language, say, saying
from training.trade.words import SKILLS

PRACTICE_ITEMS = 8
MOST_ITEMS = 12  # of a practice that asks again after it taught
_ALL_SKILLS = saying("All skills")


class UnknownSkill(ValueError):
    """No skill, or no scope of the shop, of this name; the message names the known ones."""


class AlreadyAnswered(Exception):
    """The explanation has been shown, so the answer stays as it is."""


def start_practice(*, shop: Shop, learner: User, skill: str, at: datetime, scope: str = "") -> Attempt:
    """Begin to ask about one skill, about all when `skill` is empty, or a case in several parts when it names a series;
    an unfinished practice of the same goes on instead. It is about the tires of one `scope` of the shop, its first when
    empty. A case is drawn whole; of a skill, each question when the one before it was answered.

    Raises UnknownSkill.
    """
    terms = terms_of(shop, scope)
    if terms is None and scope:
        known = ", ".join(one.name for one in terms_in(shop))
        raise UnknownSkill(
            say(
                'Scope: "{scope}" is not accepted; choose one your shop works in: {scopes}',
                scope=scope[:60],
                scopes=known,
            )
        )
    casings = terms.casings if terms else None
    if skill not in ("", *SKILLS, *SERIES):
        asked = [one for one in SKILLS if any(family(name).skill == one for name in family_names())]
        raise UnknownSkill(
            say(
                'Skill: "{skill}" is not accepted; choose one of {skills}',
                skill=skill[:40],
                skills=", ".join((*asked, *SERIES)),
            )
        )
    if skill not in SERIES and not _families(skill, casings):
        raise UnknownSkill(
            say(
                "{skill}: there is no question on it for these tires yet; practice another skill.",
                skill=SKILLS.get(skill, skill),
            )
        )
    if skill in SERIES and skill not in series_in(edition_of(shop), casings):
        raise UnknownSkill(
            say(
                "{case}: your shop's rulebook has too few rules for it; practice a skill instead.",
                case=SERIES[skill],
            )
        )
    begun = Attempt.objects.select_related("form").filter(
        form__shop=shop,
        form__learner=learner,
        form__purpose=Purpose.PRACTICE,
        form__skill=skill,
        form__scope__in=practiced_as(shop, terms),
        handed_in_at=None,
    )

    def keep(drawn: tuple[Form, list[Values]]) -> Attempt:
        form, rows = drawn
        form.save()
        keep_items(form, rows)
        return Attempt.objects.create(form=form, started_at=at)

    return compute_then_keep(
        found=begun.order_by("-started_at", "-pk").first,
        rests_on=lambda: grounds_of(shop, learner),
        compute=lambda grounds: _first_questions(grounds.rules.shop, learner, skill, terms, at),
        lock=lambda: stand_in_line(shop=shop, learner=learner),
        keep=keep,
        refusal=UnknownSkill(say("The shop's rules are being changed at this moment; begin again.")),
    )


def _first_questions(
    shop: Shop, learner: User, skill: str, terms: Terms | None, at: datetime
) -> tuple[Form, list[Values]]:
    """A practice that is not stored yet: all parts of a case, or the first question. Raises UnknownSkill."""
    if skill in SERIES and not off_in(shop).isdisjoint(parts_of(skill)):
        raise UnknownSkill(
            say("{case}: your shop has switched this case off; practice a skill instead.", case=SERIES[skill])
        )
    edition = edition_of(shop)
    form = Form(
        reference=uuid4(),
        shop=shop,
        learner=learner,
        purpose=Purpose.PRACTICE,
        skill=skill,
        scope=terms.name if terms else "",
        edition=edition.name,
        edition_version=edition.version,
        units=shop.units,
        size=len(parts_of(skill)) or PRACTICE_ITEMS,
        drawn_at=at,
    )
    if skill in SERIES:
        seed, casings = f"{seed_secret().hex()}/{form.reference}", terms.casings if terms else None
        items = draw_series(skill, seed=seed, edition=edition, prefer=shop.units, units=units_of(shop), casings=casings)
        return form, rows_of(items, edition=edition, prefer=shop.units, units=units_of(shop))
    rows = _next_question(form, shop, [])
    if not rows:
        raise UnknownSkill(
            say(
                "{skill}: no question could be drawn just now; practice another skill.",
                skill=SKILLS.get(skill, _ALL_SKILLS),
            )
        )
    return form, rows


def _families(skill: str, casings: Collection[str] | None) -> list[str]:
    """The families that practice of a skill, of all when it is empty, asks about some casings; no parts of a case."""
    of_skill = [name for name in family_names() if skill in ("", family(name).skill) and not family(name).series]
    return [name for name in of_skill if family(name).asks_about(casings)]


@once_a_language(16)  # in another language a seed may draw another question
def _ahead(
    edition: str,
    version: str,
    prefer: str,
    units: tuple[OnShelf, ...] | None,
    casings: tuple[str, ...] | None,
    photographs: tuple[Photo, ...],
) -> Ahead:
    """The questions that this process has drawn ahead, in the language spoken, for shops that work alike."""
    return Ahead()


def _next_question(
    form: Form,
    shop: Shop,
    asked: Sequence[str],
    *told: tuple[Item, Answer],
    size: int | None = None,
    again: tuple[str, Sequence[str]] = ("", ()),
) -> list[Values]:
    """The next question of a practice after those of the families `asked`, not stored yet: the one that is expected to
    tell most after the answers so far and those just `told`, or one that asks about the misconception `again` names, of
    the families beside it that met it. None where the practice has all its questions or none can be drawn.
    """
    if len(asked) >= (form.size if size is None else size):
        return []
    edition, units, off, casings = edition_of(shop), units_of(shop), off_in(shop), casings_of_scope(form.scope)
    named, photographs = _families(form.skill, casings), photographs_to_ask(shop, casings)
    seed = f"{seed_secret().hex()}/{form.reference}/{len(asked) + 1}"
    if again[0]:
        items = draw_again(
            again[0],
            [name for name in again[1] if name not in off],
            seed=seed,
            edition=edition,
            prefer=shop.units,
            units=units,
            casings=casings,
            shown=shown_to(shop, form.learner),
            photographs=photographs,
        )
        if items:
            return rows_of(items, edition=edition, prefer=shop.units, units=units, first=len(asked) + 1)
    try:
        items = draw_practice(
            sorted(
                [name for name in named if name not in off] or named,
                key=lambda name: sha256(f"{seed}/{name}".encode()).digest(),
            ),
            seed=seed,
            count=1,
            edition=edition,
            prefer=shop.units,
            units=units,
            casings=casings,
            beliefs=diagnosis_of(shop, form.learner, *told),
            shown=shown_to(shop, form.learner),
            off=off,
            asked=asked,
            ahead=_ahead(edition.name, edition.version, shop.units, units, casings, photographs),
            photographs=photographs,
        )
    except (CannotDraw, NoSuchLimit):
        return []
    return rows_of(items, edition=edition, prefer=shop.units, units=units, first=len(asked) + 1)


@dataclass(frozen=True)
class _Following:
    """What is stored after an answer. `rows`: the next question, none after the last, None while questions that are
    drawn are open. `teach`: the misconception to read about before it. `size`: how many questions there are then."""

    rows: list[Values] | None
    teach: str
    size: int


def _teaching(attempt: Attempt, latest: Told, skill: str) -> tuple[Teaching, dict[str, list[str]]]:
    """Where a practice stands after its answers and the `latest`, not stored yet, and the families of the questions
    that each misconception explained an answer to, the latest first. A case in several parts goes on as it was drawn.
    """
    if skill in SERIES:
        return Teaching(), {}
    rows = dict(FormItem.objects.filter(form=attempt.form_id).values_list("position", "family"))
    taught = dict(Taught.objects.filter(attempt=attempt).values_list("position", "misconception"))
    answered = that_count(Response.objects.filter(attempt=attempt)).order_by("position")
    marks = list(answered.values_list("position", "is_right", "misconceptions"))
    # what a question asks about matters only once something was taught
    since = min(taught, default=latest.position)
    snapshots = FormItem.objects.filter(
        form=attempt.form_id, position__gt=since, position__in=[one[0] for one in marks]
    )
    about = {
        position: asks_about(Item.from_json(told)) for position, told in snapshots.values_list("position", "snapshot")
    }
    told = [
        Told(position, is_right is True, tuple(names), about.get(position, frozenset()))
        for position, is_right, names in marks
    ]
    met: dict[str, list[str]] = {}
    for one in reversed([*told, latest]):
        for name in () if one.is_right else one.explained_by:
            met.setdefault(name, []).append(rows[one.position])
    return teaching([*told, latest], taught), met


@dataclass(frozen=True)
class _Reached:
    """How far a practice has come, and what the next question would rest on."""

    grounds: Grounds
    asked: tuple[str, ...]
    answered: int


def answer_practice(*, attempt: Attempt, position: int, answer: str, at: datetime) -> Response:
    """Keep and mark one answer for good; "" asks for the explanation without one. Then the next question is drawn, or
    the practice ends.

    The same answer again changes nothing. Raises AlreadyAnswered for another one.
    """
    form = Form.objects.select_related("shop", "learner").get(pk=attempt.form_id)
    row = FormItem.objects.only("skill", "snapshot").get(form=form, position=position)
    item, given = Item.from_json(row.snapshot), from_canonical(answer)
    marked = mark(item, given)
    row_told = Told(position, marked.right, marked.misconceptions, asks_about(item))
    time = times_in(attempt, ended_at=at, stays=False).get(position, Time())

    def found() -> Response | None:
        kept = Response.objects.filter(attempt=attempt, position=position).first()
        if kept is not None and kept.answer != answer:
            raise AlreadyAnswered(
                say(
                    "Question {position} was answered before; the first answer stays, and its explanation is below.",
                    position=position,
                )
            )
        return kept

    def reached() -> _Reached:
        return _Reached(
            grounds=grounds_of(form.shop, form.learner),
            asked=tuple(form.items.order_by("position").values_list("family", flat=True)),
            answered=Response.objects.filter(attempt=attempt).count(),
        )

    def following(reached: _Reached) -> _Following:
        """What comes after this answer: something to read, the next question, or the end."""
        stands, met = _teaching(attempt, row_told, form.skill)
        again = stands.asked_again
        size = min(MOST_ITEMS, max(form.size, len(reached.asked) + stands.left)) if again else form.size
        if reached.answered + 1 < len(reached.asked):
            return _Following(None, stands.teach, form.size)
        told_again = (again, met.get(again, ()))
        shop = reached.grounds.rules.shop
        return _Following(
            _next_question(form, shop, reached.asked, (item, given), size=size, again=told_again), stands.teach, size
        )

    def keep(following: _Following) -> Response:
        rows = following.rows
        standing = Attempt.objects.get(pk=attempt.pk)
        response = Response.objects.create(
            attempt=standing,
            position=position,
            answer=answer,
            saved_at=at,
            is_right=marked.right,
            is_unsafe=marked.unsafe,
            misconceptions=list(marked.misconceptions),
            reach=Reach.ANSWERED if answer else Reach.SKIPPED,
            first_shown_at=time.first_shown_at,
            seconds=time.seconds,
        )
        if answer:
            Moment.objects.create(attempt=standing, position=position, at=at, answer=answer, revision=1)
        right, asked = standing.by_skill.get(row.skill, (0, 0))
        standing.by_skill[row.skill] = [right + marked.right, asked + 1]
        if following.teach:
            Taught.objects.create(attempt=standing, position=position, misconception=following.teach, at=at)
        if rows:
            keep_items(form, rows)
            if following.size > form.size:
                Form.objects.filter(pk=form.pk).update(size=following.size)
        elif rows is not None:  # an answer counts whether or not another question can be drawn after it
            _end(standing, at)
        standing.save(update_fields=["by_skill", "handed_in_at", "right_count", "unsafe_count"])
        return response

    return compute_then_keep(
        found=found,
        rests_on=reached,
        compute=following,
        lock=lambda: Attempt.objects.select_for_update(no_key=True).get(pk=attempt.pk),
        keep=keep,
        refusal=AlreadyAnswered(
            say("Another answer of this practice was being kept; nothing was stored, answer again.")
        ),
    )


@transaction.atomic
def read_taught(*, attempt: Attempt, at: datetime) -> None:
    """Say that what practice stopped to teach was read, so that it goes on. Read before: nothing changes."""
    Taught.objects.filter(attempt=attempt, read_at=None).update(read_at=at)


def _end(attempt: Attempt, at: datetime) -> None:
    """Close a practice, not saved yet, with the questions it has."""
    answered = Response.objects.filter(attempt=attempt)
    attempt.handed_in_at = at
    attempt.right_count = sum(right for right, _ in attempt.by_skill.values())
    attempt.unsafe_count = that_count(answered.filter(is_unsafe=True)).count()
    count = answered.count()
    Form.objects.filter(pk=attempt.form_id, size__gt=count).update(size=count)
