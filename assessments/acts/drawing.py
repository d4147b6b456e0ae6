"""What drawing a form needs on this installation: the seeds' secret, the snapshot rows, a person's place in line."""

from collections.abc import Sequence

from django.utils.crypto import salted_hmac

from assessments.models import Form, FormItem
from assessments.questions import Item
from assessments.questions.items.digest import digest
from training.models import Membership, Shop, User


def seed_secret() -> bytes:
    """The secret that seeds are made with, so that nobody draws a form again from what its page shows."""
    return salted_hmac("assessments.forms", "seeds", algorithm="sha256").digest()


def keep_items(form: Form, items: Sequence[Item], *, first: int = 1) -> None:
    """Store the snapshot of items of a form, from this position on, and beside it what a browser may see."""
    FormItem.objects.bulk_create(
        FormItem(
            form=form,
            position=position,
            family=item.family,
            skill=item.skill,
            lesson=item.lesson,
            digest=digest(item),
            open=item.open().to_json(),
            snapshot=item.to_json(),
        )
        for position, item in enumerate(items, first)
    )


def stand_in_line(*, shop: Shop, learner: User) -> None:
    """Let two presses of one person wait for each other; SQLite's immediate transactions do so anyway."""
    list(
        Membership.objects.select_for_update()
        .filter(shop=shop, user=learner, ended_at=None)
        .order_by("pk")
        .values_list("pk")
    )
