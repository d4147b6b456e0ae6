"""A shop's house rules, now and before, and its shelf."""

from django.db.models import QuerySet

from training.models import HouseRuleSet, RepairUnit, Shop


def house_rule_sets(shop: Shop) -> QuerySet[HouseRuleSet]:
    """Every set that was ever in force, the newest first."""
    return HouseRuleSet.objects.filter(shop=shop).select_related("set_by").order_by("-number")


def latest_number(shop: Shop) -> int:
    """The number of the set in force; 0 before the first."""
    number = HouseRuleSet.objects.filter(shop=shop).order_by("-number").values_list("number", flat=True).first()
    return number or 0


def shelf(shop: Shop) -> QuerySet[RepairUnit]:
    """The units and stems on the shelf, each kind as it was entered."""
    return RepairUnit.objects.filter(shop=shop, ended_at=None).select_related("added_by").order_by("kind", "pk")


def taken_off(shop: Shop) -> QuerySet[RepairUnit]:
    """Units that were on the shelf once, the latest first."""
    units = RepairUnit.objects.filter(shop=shop, ended_at__isnull=False)
    return units.select_related("ended_by").order_by("-ended_at", "-pk")


def units_in(shop: Shop) -> QuerySet[RepairUnit]:
    """All units ever entered, on the shelf or not."""
    return RepairUnit.objects.filter(shop=shop)
