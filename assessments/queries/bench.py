"""What the draw bench reads: the families a shop has switched off, and flags on draws."""

from django.db.models import QuerySet

from assessments.models import DrawFlag, FamilyOff
from assessments.questions import family_names, with_their_series
from training.models import Shop


def families_off(shop: Shop) -> dict[str, FamilyOff]:
    """The families the shop does not ask now, by name, a case in several parts with all its parts; one query."""
    known = set(family_names())
    off: dict[str, FamilyOff] = {}
    for row in FamilyOff.objects.filter(shop=shop, ended_at=None, family__in=known).select_related("by"):
        for name in with_their_series([row.family]):
            off.setdefault(name, row)
    return off


def open_flags(shop: Shop) -> QuerySet[DrawFlag]:
    """Flags nobody has settled, the latest first."""
    rows = DrawFlag.objects.filter(shop=shop, resolved_at=None).select_related("by", "item__form__learner")
    return rows.defer("item__open", "item__snapshot")


def flags_in(shop: Shop) -> QuerySet[DrawFlag]:
    """Every flag of the shop, settled ones too."""
    return DrawFlag.objects.filter(shop=shop)


def flags_of(shop: Shop, family_name: str) -> QuerySet[DrawFlag]:
    """All flags on draws of a family, settled ones too, the latest first; none on questions that were asked."""
    return DrawFlag.objects.filter(shop=shop, family=family_name, item=None).select_related("by", "resolved_by")
