"""Practice: a few questions of one skill or of all, each explained as soon as it is answered."""

from datetime import datetime
from hashlib import sha256
from uuid import uuid4

from django.db import transaction
from django.db.models import Count, Q

from assessments.acts.drawing import keep_items, seed_secret, stand_in_line
from assessments.blueprints import off_in, practiced_as, terms_in, terms_of
from assessments.models import Attempt, Form, FormItem, Purpose, Response
from assessments.queries.beliefs import diagnosis_of, shown_to
from assessments.scenarios import (
    SERIES,
    SKILLS,
    Item,
    draw_practice,
    draw_series,
    family,
    family_names,
    from_canonical,
    mark,
    parts_of,
    series_in,
)
from training.models import Shop, User
from training.shop_rulebook import edition_of, units_of

PRACTICE_ITEMS = 8


class UnknownSkill(ValueError):
    """No skill, or no scope of the shop, of this name; the message names the known ones."""


class AlreadyAnswered(Exception):
    """The explanation has been shown, so the answer stays as it is."""


@transaction.atomic
def start_practice(*, shop: Shop, learner: User, skill: str, at: datetime, scope: str = "") -> Attempt:
    """Draw questions of one skill, of all when `skill` is empty, or a case in several parts when it names a series; an
    unfinished practice of the same goes on instead. They are about the tires of one `scope` of the shop, its first
    when empty.

    Raises UnknownSkill.
    """
    terms = terms_of(shop, scope)
    if terms is None and scope:
        known = ", ".join(one.name for one in terms_in(shop))
        raise UnknownSkill(f'Scope: "{scope[:60]}" is not accepted; choose one your shop works in: {known}')
    casings = terms.casings if terms else None
    named = [name for name in family_names() if skill in ("", family(name).skill) and not family(name).series]
    families = [name for name in named if family(name).asks_about(casings)]
    if not named and skill not in SERIES:
        asked = [one for one in SKILLS if any(family(name).skill == one for name in family_names())]
        raise UnknownSkill(f'Skill: "{skill[:40]}" is not accepted; choose one of {", ".join((*asked, *SERIES))}')
    if not families and skill not in SERIES:
        raise UnknownSkill(
            f"{SKILLS.get(skill, skill)}: there is no question on it for these tires yet; practice another skill."
        )
    edition = edition_of(shop)
    if skill in SERIES and skill not in series_in(edition, casings):
        raise UnknownSkill(f"{SERIES[skill]}: your shop's rulebook has too few rules for it; practice a skill instead.")
    stand_in_line(shop=shop, learner=learner)
    unfinished = (
        Attempt.objects.select_related("form")
        .filter(form__shop=shop, form__learner=learner, form__purpose=Purpose.PRACTICE, form__skill=skill)
        .filter(handed_in_at=None, form__scope__in=practiced_as(shop, terms))
        .order_by("-started_at", "-pk")
        .first()
    )
    if unfinished is not None:
        return unfinished
    off = off_in(shop)
    if skill in SERIES and not off.isdisjoint(parts_of(skill)):
        raise UnknownSkill(f"{SERIES[skill]}: your shop has switched this case off; practice a skill instead.")
    families = [name for name in families if name not in off] or families
    reference = uuid4()
    seed = f"{seed_secret().hex()}/{reference}"
    prefer, units = shop.units, units_of(shop)
    if skill in SERIES:
        items = draw_series(skill, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings)
    else:
        by_seed = sorted(families, key=lambda name: sha256(f"{seed}/{name}".encode()).digest())
        items = draw_practice(
            by_seed,
            seed=seed,
            count=PRACTICE_ITEMS,
            edition=edition,
            prefer=prefer,
            units=units,
            casings=casings,
            beliefs=diagnosis_of(shop, learner),
            shown=shown_to(shop, learner),
            off=off,
        )
    form = Form.objects.create(
        reference=reference,
        shop=shop,
        learner=learner,
        purpose=Purpose.PRACTICE,
        skill=skill,
        scope=terms.name if terms else "",
        edition=edition.name,
        edition_version=edition.version,
        units=shop.units,
        size=len(items),
        drawn_at=at,
    )
    keep_items(form, items)
    return Attempt.objects.create(form=form, started_at=at)


@transaction.atomic
def answer_practice(*, attempt: Attempt, position: int, answer: str, at: datetime) -> Response:
    """Keep and mark one answer for good; "" asks for the explanation without one. The last one ends the practice.

    The same answer again changes nothing. Raises AlreadyAnswered for another one.
    """
    attempt = Attempt.objects.select_for_update(of=("self",)).select_related("form").get(pk=attempt.pk)
    kept = Response.objects.filter(attempt=attempt, position=position).first()
    if kept is not None:
        if kept.answer != answer:
            raise AlreadyAnswered(
                f"Question {position} was answered before; the first answer stays, and its explanation is below."
            )
        return kept
    row = FormItem.objects.only("skill", "snapshot").get(form=attempt.form, position=position)
    marked = mark(Item.from_json(row.snapshot), from_canonical(answer))
    response = Response.objects.create(
        attempt=attempt,
        position=position,
        answer=answer,
        saved_at=at,
        is_right=marked.right,
        is_unsafe=marked.unsafe,
        misconceptions=list(marked.misconceptions),
    )
    right, asked = attempt.by_skill.get(row.skill, (0, 0))
    attempt.by_skill[row.skill] = [right + marked.right, asked + 1]
    count = Response.objects.filter(attempt=attempt).aggregate(
        answered=Count("pk"), right=Count("pk", filter=Q(is_right=True)), unsafe=Count("pk", filter=Q(is_unsafe=True))
    )
    if count["answered"] == attempt.form.size:
        attempt.handed_in_at, attempt.right_count, attempt.unsafe_count = at, count["right"], count["unsafe"]
    attempt.save(update_fields=["by_skill", "handed_in_at", "right_count", "unsafe_count"])
    return response
