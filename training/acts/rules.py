"""Setting a shop's house rules, and what stands on its shelf."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.timezone import localtime

from training.locks import compute_then_keep
from training.models import HouseRuleSet, RepairUnit, Shop, User
from training.queries import Rules, house_rules_of, rules_of
from training.rulebook import CASINGS, HouseRule, HouseRules, lay_over, load_edition, settle
from training.trade.days import written_instant
from training.trade.speech import say


class RulesChanged(Exception):
    """Somebody else has set house rules since the page was loaded; the words say who and when."""


class UnitRefused(Exception):
    """The unit may not be put on the shelf: the words say why."""


def set_house_rules(
    *, shop: Shop, rules: HouseRules, reason: str, by: User, base: int, at: datetime
) -> HouseRuleSet | None:
    """Make these the shop's house rules from now on; `base` is the number of the set the owner looked at.

    Rules that stand already keep the day they began. The same rules again change nothing and give back the set that
    stands, None where there never was one. Raises HouseRuleError for a rule that is not accepted, RulesChanged.
    """
    edition = load_edition(shop.edition)
    settled = settle(edition, rules)
    day = at.astimezone(ZoneInfo(shop.time_zone)).date()

    def standing() -> tuple[Rules, HouseRuleSet | None]:
        sets = HouseRuleSet.objects.filter(shop=shop).select_related("set_by").order_by("number")
        return rules_of(shop), sets.last()

    def dated(standing: tuple[Rules, HouseRuleSet | None]) -> HouseRuleSet | None:
        """The new set, not stored yet; the latest where the standing rules say the same."""
        before, latest = house_rules_of(standing[0].shop), standing[1]
        begun = HouseRules(tuple(_begun(rule, before.rule(rule.clause), day) for rule in settled))
        if begun.digest == before.digest:
            return latest
        number = latest.number if latest is not None else 0
        if latest is not None and number != base:
            raise RulesChanged(
                say(
                    "{person} set house rules on {time}, after you opened this page. Nothing was "
                    "changed; look at them, then decide again.",
                    person=latest.set_by.name,
                    time=written_instant(localtime(latest.set_at)),
                )
            )
        made = HouseRuleSet(
            shop=shop,
            number=number + 1,
            edition=edition.name,
            edition_version=lay_over(edition, begun).version,
            rules=begun.to_json(),
            reason=reason,
            set_by=by,
            set_at=at,
        )
        made.clean_fields()
        return made

    def keep(made: HouseRuleSet | None) -> HouseRuleSet | None:
        if made is not None and made.pk is None:
            made.save()
            Shop.objects.filter(pk=shop.pk).update(house_rules=made.rules)
        return made

    return compute_then_keep(
        rests_on=standing,
        compute=dated,
        lock=lambda: Shop.objects.select_for_update(no_key=True).get(pk=shop.pk),
        keep=keep,
        refusal=RulesChanged(
            say("Somebody is setting house rules at this moment. Nothing was changed; load the page again.")
        ),
    )


def _begun(rule: HouseRule, standing: HouseRule | None, day: date) -> HouseRule:
    """The rule with the day it began: the day of the standing one that says the same, else today."""
    is_same = standing is not None and (standing.limits, standing.note) == (rule.limits, rule.note)
    return replace(rule, since=standing.since if standing is not None and is_same else day)


def add_unit(
    *,
    shop: Shop,
    name: str,
    kind: str,
    length: str,
    width: str,
    stem_diameter: str,
    injury_max: str,
    casings: Sequence[str],
    by: User,
    at: datetime,
    injury_min: str = "",
) -> RepairUnit:
    """Put a unit or stem on the shelf. The same again changes nothing; another of that name: UnitRefused."""
    facts = {
        "kind": kind,
        "length": length,
        "width": width,
        "stem_diameter": stem_diameter,
        "injury_min": injury_min,
        "injury_max": injury_max,
        "casings": [one for one in CASINGS if one in casings],
    }

    def found() -> RepairUnit | None:
        standing = RepairUnit.objects.filter(shop=shop, name__iexact=name, ended_at=None).first()
        if standing is not None and any(getattr(standing, field) != value for field, value in facts.items()):
            raise UnitRefused(
                say('Name: "{unit}" is on the shelf already; give another name, or take that one off first.', unit=name)
            )
        return standing

    def checked(_: Rules) -> RepairUnit:
        unit = RepairUnit(shop=shop, name=name, added_by=by, added_at=at, **facts)
        unit.clean_fields()
        return unit

    def keep(unit: RepairUnit) -> RepairUnit:
        unit.save()
        return unit

    return compute_then_keep(
        found=found,
        rests_on=lambda: rules_of(shop),
        compute=checked,
        lock=lambda: Shop.objects.select_for_update(no_key=True).get(pk=shop.pk),
        keep=keep,
        refusal=UnitRefused(
            say("The shelf is being changed at this moment. Nothing was changed; load the page again.")
        ),
    )


@transaction.atomic
def end_unit(*, unit: RepairUnit, by: User, at: datetime) -> RepairUnit:
    """Take a unit off the shelf; plans made before keep it. Taken off already: nothing changes."""
    unit = RepairUnit.objects.select_for_update(no_key=True).get(pk=unit.pk)
    if unit.ended_at is None:
        unit.ended_at, unit.ended_by = at, by
        unit.save(update_fields=["ended_at", "ended_by"])
    return unit
