"""What a trainer does at the draw bench: doubt a draw, settle that, switch a family off for the shop and on again."""

from collections.abc import Sequence
from datetime import datetime

from django.db import transaction
from django.utils.timezone import localtime

from assessments.models import DrawFlag, FamilyOff
from assessments.queries import terms_in
from assessments.questions import Family, Item, families_of, family, stand_ins_for, with_their_series
from training.locks import compute_then_keep
from training.models import Shop, User
from training.queries import Rules, edition_of, rules_of
from training.trade.days import written_day
from training.trade.speech import say
from training.trade.words import SKILLS, tires_in_words, uncapital


class FlagRefused(Exception):
    """The draw cannot be flagged so; the message says why."""


class LastOfSkill(Exception):
    """No other family asks this skill, so this one cannot be switched off; the message names both."""


@transaction.atomic
def flag_draw(*, shop: Shop, item: Item, comment: str, by: User, at: datetime) -> DrawFlag:
    """Keep a trainer's doubt about one draw. The same words again change nothing; others raise FlagRefused."""
    flag, is_new = DrawFlag.objects.get_or_create(
        shop=shop,
        family=item.family,
        seed=item.seed,
        by=by,
        resolved_at=None,
        defaults={
            "edition": item.edition,
            "edition_version": item.version,
            "units": shop.units,
            "stem": item.stem,
            "comment": comment,
            "at": at,
        },
    )
    if not is_new and flag.comment != comment:
        raise FlagRefused(
            say(
                "You flagged this draw on {day}; settle that flag, then flag it again.",
                day=written_day(localtime(flag.at)),
            )
        )
    return flag


@transaction.atomic
def settle_flag(*, flag: DrawFlag, by: User, at: datetime) -> DrawFlag:
    """Say that a flag has been looked at. Settled before: nothing changes."""
    flag = DrawFlag.objects.select_for_update(no_key=True).get(pk=flag.pk)
    if flag.resolved_at is None:
        flag.resolved_at, flag.resolved_by = at, by
        flag.save(update_fields=["resolved_at", "resolved_by"])
    return flag


def switch_family_off(*, shop: Shop, family_name: str, reason: str, by: User, at: datetime) -> FamilyOff:
    """Ask this family no more in the shop; forms that are drawn already stay. Off already: nothing changes.

    A part of a longer case takes the whole case with it.

    Raises UnknownFamily, and LastOfSkill where no family of its skill would be left in a scope of the shop.
    """
    wanted = family(family_name)
    off = FamilyOff.objects.filter(shop=shop, ended_at=None)

    def standing() -> tuple[Rules, list[str]]:
        return rules_of(shop), sorted(off.values_list("family", flat=True))

    def keep(_: None) -> FamilyOff:
        return FamilyOff.objects.create(shop=shop, family=wanted.name, reason=reason, since_at=at, by=by)

    return compute_then_keep(
        found=lambda: off.filter(family=wanted.name).first(),
        rests_on=standing,
        compute=lambda standing: _check_not_last(wanted, standing[0].shop, standing[1]),
        # two trainers must not switch off the last two at once
        lock=lambda: Shop.objects.select_for_update(no_key=True).get(pk=shop.pk),
        keep=keep,
        refusal=LastOfSkill(say("Families are being switched off at this moment; nothing was changed, press again.")),
    )


def _check_not_last(wanted: Family, shop: Shop, off: Sequence[str]) -> None:
    going = with_their_series([wanted.name])
    gone = with_their_series([*off, wanted.name])
    tires: list[tuple[str, ...] | None] = [terms.casings for terms in terms_in(shop)]
    for casings in tires or [None]:
        among = families_of(edition_of(shop), casings)
        if not all(stand_ins_for(name, off=gone, among=among) for name in going if name in among):
            skill = uncapital(SKILLS[wanted.skill])
            if casings and len(tires) > 1:
                raise LastOfSkill(
                    say(
                        '"{title}" is the last family that asks {skill} of {tires}; switch another family of that '
                        "skill on first.",
                        title=wanted.title,
                        skill=skill,
                        tires=uncapital(tires_in_words(casings)),
                    )
                )
            raise LastOfSkill(
                say(
                    '"{title}" is the last family that asks {skill}; switch another family of that skill on first.',
                    title=wanted.title,
                    skill=skill,
                )
            )


def switch_family_on(*, shop: Shop, family_name: str, by: User, at: datetime) -> None:
    """Ask this family again, and where it is a part of a longer case, the case. On already: nothing changes."""
    names = with_their_series([family(family_name).name])
    with transaction.atomic():
        FamilyOff.objects.filter(shop=shop, family__in=names, ended_at=None).update(ended_at=at, ended_by=by)
