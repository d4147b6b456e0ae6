"""The rulebook as one shop works by it: its edition with its house rules laid over, and the units on its shelf."""

import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache

from training import rulebook
from training.models import HouseRuleSet, RepairUnit, Shop
from training.rulebook import (
    Edition,
    HouseRules,
    RulebookError,
    effective,
    in_words,
    lay_over,
    load_edition,
    units_from,
)
from training.trade.speech import say


def edition_of(shop: Shop) -> Edition:
    """The rulebook of the shop, house rules laid over; no query.

    A rule that a newer version of the edition has overtaken is left out: the edition is then the stricter one.
    """
    edition = load_edition(shop.edition)
    if not shop.house_rules:
        return edition
    # the day a rule began changes no decision, so shops with the same rules share one edition
    said = [{**entry, "since": None} for entry in shop.house_rules]
    return _laid(edition, json.dumps(said, sort_keys=True))


@lru_cache(maxsize=256)
def _laid(edition: Edition, rules: str) -> Edition:
    return lay_over(edition, effective(edition, HouseRules.from_json(json.loads(rules))))


@dataclass(frozen=True)
class Rules:
    """What a shop decides by at one moment; two are equal while nobody changed its rules, shelf, units or scopes."""

    shop: Shop = field(compare=False)  # as it stood when this was read
    said: tuple[str, object, str, object]
    shelf: tuple[int, ...]


def rules_of(shop: Shop) -> Rules:
    """What the shop decides by now; two queries."""
    shop = Shop.objects.get(pk=shop.pk)
    shelf = RepairUnit.objects.filter(shop=shop, ended_at=None).order_by("pk").values_list("pk", flat=True)
    return Rules(shop, (shop.edition, shop.house_rules, shop.units, shop.scopes), tuple(shelf))


def house_rules_of(shop: Shop) -> HouseRules:
    """The shop's house rules as they were set."""
    return HouseRules.from_json(shop.house_rules)


def house_rules_of_version(shop: Shop, edition: str, version: str) -> tuple[str, ...]:
    """In words, the house rules that an edition's version with a digest stands for in this shop; one query.

    Empty where the version names none.
    """
    released, _, digest = version.partition("+h")
    if not digest:
        return ()
    try:
        base = load_edition(edition, version=released)
    except RulebookError:
        return (say("stricter limits of the shop, set {digest}", digest=digest),)
    for kept in HouseRuleSet.objects.filter(shop=shop, edition=edition).order_by("-number"):
        rules = effective(base, HouseRules.from_json(kept.rules))
        if rules.digest == digest:
            return in_words(base, rules)
    return (say("stricter limits of the shop, set {digest}", digest=digest),)


def units_of(shop: Shop) -> tuple[rulebook.OnShelf, ...] | None:
    """What is on the shop's shelf, one query; None while it has entered nothing."""
    rows = RepairUnit.objects.filter(shop=shop, ended_at=None).order_by("pk")
    return units_of_rows(rows) or None


def units_of_rows(rows: Iterable[RepairUnit]) -> tuple[rulebook.OnShelf, ...]:
    """Stored units and stems as the rulebook computes with them."""
    fields = ("name", "kind", "length", "width", "stem_diameter", "casings", "injury_min", "injury_max")
    stored = [{field: getattr(row, field) for field in fields} for row in rows]
    entries = [{field: value for field, value in row.items() if value} for row in stored]
    return units_from(entries, "shelf") if entries else ()
