"""What drawing a form needs on this installation: what the draw rests on, the seeds' secret, the rows to keep, and a
person's place in line. A form is drawn before the writer's lock is taken, and kept while what it rests on stands."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from django.utils.crypto import salted_hmac

from assessments.models import FamilyOff, Form, FormItem
from assessments.questions import Item, digest
from training.models import Membership, RepairUnit, Shop, User


@dataclass(frozen=True)
class Grounds:
    """What a draw for one person rests on; two are equal while nobody changed the shop's rules, units or families, and
    the person was asked nothing more."""

    shop: Shop = field(compare=False)  # as it stood when this was read
    rules: tuple[str, object, str]
    shelf: tuple[int, ...]
    off: tuple[int, ...]
    asked: int


def grounds_of(shop: Shop, learner: User) -> Grounds:
    """What a draw for this person rests on now; four queries."""
    shop = Shop.objects.get(pk=shop.pk)
    return Grounds(
        shop=shop,
        rules=(shop.edition, shop.house_rules, shop.units),
        shelf=tuple(RepairUnit.objects.filter(shop=shop, ended_at=None).order_by("pk").values_list("pk", flat=True)),
        off=tuple(FamilyOff.objects.filter(shop=shop, ended_at=None).order_by("pk").values_list("pk", flat=True)),
        asked=FormItem.objects.filter(form__shop=shop, form__learner=learner).count(),
    )


def seed_secret() -> bytes:
    """The secret that seeds are made with, so that nobody draws a form again from what its page shows."""
    return salted_hmac("assessments.forms", "seeds", algorithm="sha256").digest()


def rows_of(items: Sequence[Item], *, first: int = 1) -> list[FormItem]:
    """The snapshots of items from this position on, and beside each what a browser may see; not stored yet."""
    return [
        FormItem(
            position=position,
            family=item.family,
            skill=item.skill,
            lesson=item.lesson,
            digest=digest(item),
            open=item.open().to_json(),
            snapshot=item.to_json(),
        )
        for position, item in enumerate(items, first)
    ]


def keep_items(form: Form, rows: Sequence[FormItem]) -> None:
    """Store such rows as items of a form."""
    for row in rows:
        row.form = form
    FormItem.objects.bulk_create(rows)


def stand_in_line(*, shop: Shop, learner: User) -> None:
    """Let two presses of one person wait for each other; SQLite's immediate transactions do so anyway."""
    list(
        Membership.objects.select_for_update()
        .filter(shop=shop, user=learner, ended_at=None)
        .order_by("pk")
        .values_list("pk")
    )
