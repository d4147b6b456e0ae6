"""Setting a shop's house rules, and what stands on its shelf."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.timezone import localtime

from training.models import HouseRuleSet, RepairUnit, Shop, User
from training.queries import house_rules_of
from training.rulebook import CASINGS, HouseRule, HouseRules, lay_over, load_edition, settle
from training.trade.days import written_instant


class RulesChanged(Exception):
    """Somebody else has set house rules since the page was loaded; the words say who and when."""


class UnitRefused(Exception):
    """The unit may not be put on the shelf: the words say why."""


@transaction.atomic
def set_house_rules(
    *, shop: Shop, rules: HouseRules, reason: str, by: User, base: int, at: datetime
) -> HouseRuleSet | None:
    """Make these the shop's house rules from now on; `base` is the number of the set the owner looked at.

    Rules that stand already keep the day they began. The same rules again change nothing and give back the set that
    stands, None where there never was one. Raises HouseRuleError for a rule that is not accepted, RulesChanged.
    """
    shop = Shop.objects.select_for_update().get(pk=shop.pk)
    edition = load_edition(shop.edition)
    standing = house_rules_of(shop)
    latest = HouseRuleSet.objects.filter(shop=shop).select_related("set_by").order_by("number").last()
    day = at.astimezone(ZoneInfo(shop.time_zone)).date()
    dated = HouseRules(
        tuple(_begun(rule, standing.rule(rule.clause), day) for rule in settle(edition, rules)),
    )
    if dated.digest == standing.digest:
        return latest
    number = latest.number if latest is not None else 0
    if latest is not None and number != base:
        raise RulesChanged(
            f"{latest.set_by.name} set house rules on {written_instant(localtime(latest.set_at))}, after you opened "
            "this page. Nothing was changed; look at them, then decide again."
        )
    made = HouseRuleSet(
        shop=shop,
        number=number + 1,
        edition=edition.name,
        edition_version=lay_over(edition, dated).version,
        rules=dated.to_json(),
        reason=reason,
        set_by=by,
        set_at=at,
    )
    made.full_clean()
    made.save()
    shop.house_rules = made.rules
    shop.save(update_fields=["house_rules"])
    return made


def _begun(rule: HouseRule, standing: HouseRule | None, day: date) -> HouseRule:
    """The rule with the day it began: the day of the standing one that says the same, else today."""
    is_same = standing is not None and (standing.limits, standing.note) == (rule.limits, rule.note)
    return replace(rule, since=standing.since if standing is not None and is_same else day)


@transaction.atomic
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
) -> RepairUnit:
    """Put a size of unit on the shelf. The same unit again changes nothing; another of that name: UnitRefused."""
    Shop.objects.select_for_update().get(pk=shop.pk)
    facts = {
        "kind": kind,
        "length": length,
        "width": width,
        "stem_diameter": stem_diameter,
        "injury_max": injury_max,
        "casings": [one for one in CASINGS if one in casings],
    }
    standing = RepairUnit.objects.filter(shop=shop, name__iexact=name, ended_at=None).first()
    if standing is not None:
        if all(getattr(standing, field) == value for field, value in facts.items()):
            return standing
        raise UnitRefused(f'Name: "{name}" is on the shelf already; give another name, or take that one off first.')
    unit = RepairUnit(shop=shop, name=name, added_by=by, added_at=at, **facts)
    unit.full_clean()
    unit.save()
    return unit


@transaction.atomic
def end_unit(*, unit: RepairUnit, by: User, at: datetime) -> RepairUnit:
    """Take a unit off the shelf; plans made before keep it. Taken off already: nothing changes."""
    unit = RepairUnit.objects.select_for_update().get(pk=unit.pk)
    if unit.ended_at is None:
        unit.ended_at, unit.ended_by = at, by
        unit.save(update_fields=["ended_at", "ended_by"])
    return unit
