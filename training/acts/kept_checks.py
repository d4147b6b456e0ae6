"""Keeping a check of a tire, and correcting one by a new entry."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Q

from training.locks import compute_then_keep
from training.models import Membership, Shop, TireCheck, User, symbols_of
from training.pages.kept_checks import words_to_keep
from training.pages.verdict import examine
from training.queries import Rules, edition_of, rules_of, units_of
from training.rulebook import Case
from training.trade.speech import say


class CheckRefused(Exception):
    """Nothing was kept: the words say why."""


def keep_check(
    *,
    shop: Shop,
    person: User,
    case: Case,
    found: Mapping[str, str],
    entered: Sequence[tuple[str, str]],
    tin: str,
    ticket: str,
    note: str,
    taken_along: bool,
    corrects: TireCheck | None,
    press: UUID,
    at: datetime,
) -> TireCheck:
    """Decide the case by the shop's rulebook and keep it, with the person as the one who looked.

    `found` and `entered` are what was typed, by field and in words. The same `press` again gives back its entry.
    Raises CheckRefused for somebody outside the shop, and for an entry that was corrected before.
    """

    def found_before() -> TireCheck | None:
        made = TireCheck.objects.filter(press=press, shop=shop, looked_by=person).first()
        if made is None and not Membership.objects.filter(shop=shop, user=person, ended_at=None).exists():
            raise CheckRefused(say("{person} does not belong to {shop}.", person=person.name, shop=shop.name))
        if made is None and corrects is not None:
            _may_be_corrected(corrects, shop, note)
        return made

    def standing() -> tuple[Rules, list[int], list[int]]:
        members = Membership.objects.filter(shop=shop, user=person, ended_at=None).order_by("pk")
        entries = TireCheck.objects.filter(Q(press=press) | Q(corrects=corrects, corrects__isnull=False)).order_by("pk")
        return rules_of(shop), list(members.values_list("pk", flat=True)), list(entries.values_list("pk", flat=True))

    def decided(standing: tuple[Rules, list[int], list[int]]) -> TireCheck:
        rules = standing[0]
        edition = edition_of(rules.shop)
        result = examine(case, edition=edition, prefer=rules.shop.units, units=units_of(rules.shop))
        entry = TireCheck(
            press=press,
            shop=shop,
            looked_by=person,
            kept_at=at,
            looked_on=case.on or at.astimezone(ZoneInfo(shop.time_zone)).date(),
            tin=tin,
            tin_key=symbols_of(tin),
            ticket=ticket,
            casing=case.tire.casing,
            designation=case.tire.designation or "",
            verdict=result.decision.verdict,
            is_open=result.decision.is_open,
            edition=result.decision.edition,
            edition_version=result.decision.version,
            case=case.to_json(),
            decision=result.decision.to_json(),
            printed=words_to_keep(result, edition=edition, entered=entered),
            found=dict(found),
            note=note,
            taken_along=taken_along,
            corrects=corrects,
        )
        entry.clean_fields(exclude=["shop", "looked_by"])
        return entry

    def keep(entry: TireCheck) -> TireCheck:
        entry.save(force_insert=True)
        return entry

    return compute_then_keep(
        found=found_before,
        rests_on=standing,
        compute=decided,
        # two corrections of one entry wait in line
        lock=lambda: Shop.objects.select_for_update(no_key=True).get(pk=shop.pk),
        keep=keep,
        refusal=CheckRefused(
            say("The rules of the shop are being changed at this moment; nothing was kept, press again.")
        ),
    )


def _may_be_corrected(entry: TireCheck, shop: Shop, note: str) -> None:
    if entry.shop_id != shop.pk:
        raise CheckRefused(say("That entry is not one of {shop}.", shop=shop.name))
    if TireCheck.objects.filter(corrects=entry).exists():
        raise CheckRefused(say("This entry has already been corrected: correct the newer one."))
    if not note:
        raise CheckRefused(say("Note: it is empty; say what was wrong with the entry that this one corrects."))
