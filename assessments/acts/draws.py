"""What drawing a form needs on this installation: what the draw rests on, the seeds' secret, the rows to keep, and a
person's place in line. A form is drawn before the writer's lock is taken, and kept while what it rests on stands."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.crypto import salted_hmac

from assessments.models import FamilyOff, Form, FormItem
from assessments.questions import Item, casing_of, digest, family_version, traits_of
from training.models import Membership, Shop, User
from training.queries import Rules, rules_of
from training.rows import Values, insert, ready
from training.rulebook import Edition, OnShelf

_OF_ITEM = (
    "position",
    "family",
    "skill",
    "lesson",
    "digest",
    "family_version",
    "template",
    "casing",
    "format",
    "traits",
    "open",
    "snapshot",
)


@dataclass(frozen=True)
class Grounds:
    """What a draw for one person rests on; two are equal while nobody changed the shop's rules, units or families, and
    the person was asked nothing more."""

    rules: Rules
    off: tuple[int, ...]
    asked: int


def grounds_of(shop: Shop, learner: User) -> Grounds:
    """What a draw for this person rests on now; four queries."""
    return Grounds(
        rules=rules_of(shop),
        off=tuple(FamilyOff.objects.filter(shop=shop, ended_at=None).order_by("pk").values_list("pk", flat=True)),
        asked=FormItem.objects.filter(form__shop=shop, form__learner=learner).count(),
    )


def seed_secret() -> bytes:
    """The secret that seeds are made with, so that nobody draws a form again from what its page shows."""
    return salted_hmac("assessments.forms", "seeds", algorithm="sha256").digest()


def rows_of(
    items: Sequence[Item], *, edition: Edition, prefer: str, units: Sequence[OnShelf] | None, first: int = 1
) -> list[Values]:
    """The snapshots of items from this position on, drawn under this edition for such a shop, each with what a browser
    may see and what it is measured by; ready to be stored."""
    made = (
        FormItem(
            position=position,
            family=item.family,
            skill=item.skill,
            lesson=item.lesson,
            digest=digest(item),
            family_version=family_version(item.family),
            template=item.template,
            casing=casing_of(item),
            format=item.format,
            traits=traits_of(item, edition=edition, prefer=prefer, units=units).to_json(),
            open=item.open().to_json(),
            snapshot=item.to_json(),
        )
        for position, item in enumerate(items, first)
    )
    return ready(made, _OF_ITEM)


def keep_items(form: Form, rows: Sequence[Values]) -> None:
    """Store such rows as items of a form."""
    insert(FormItem, ("form", *_OF_ITEM), [[form.pk, *row] for row in rows])


def stand_in_line(*, shop: Shop, learner: User) -> None:
    """Let two presses of one person wait for each other; SQLite's immediate transactions do so anyway."""
    list(
        Membership.objects.select_for_update(no_key=True)
        .filter(shop=shop, user=learner, ended_at=None)
        .order_by("pk")
        .values_list("pk")
    )
