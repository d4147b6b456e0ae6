"""Who belongs to a shop, who did, and who is asked to join."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet

from training.models import Invitation, Membership, Role, Shop, User, digest_of


@dataclass(frozen=True)
class Member:
    """One person of a shop: the roles held now, and those that ended."""

    person: User
    held: tuple[Membership, ...]
    ended: tuple[Membership, ...]

    @property
    def left_at(self) -> datetime | None:
        """When the last role ended; None while one is held."""
        if self.held:
            return None
        return max(membership.ended_at for membership in self.ended if membership.ended_at)

    def holds(self, role: str) -> bool:
        """Whether the person holds the role now."""
        return any(membership.role == role for membership in self.held)


def members(shop: Shop, *, person: User | None = None) -> list[Member]:
    """Everybody who belongs or belonged to the shop, by name; one query. Only `person` when given."""
    rows = Membership.objects.filter(shop=shop).select_related("user").order_by("user__name", "user_id", "since_at")
    if person is not None:
        rows = rows.filter(user=person)
    order = {role: place for place, role in enumerate(Role.values)}
    gathered: dict[User, list[Membership]] = {}
    for row in rows:
        gathered.setdefault(row.user, []).append(row)
    return [
        Member(
            person=user,
            held=tuple(sorted((row for row in own if row.ended_at is None), key=lambda row: order[row.role])),
            ended=tuple(row for row in own if row.ended_at is not None),
        )
        for user, own in gathered.items()
    ]


def person_in(shop: Shop) -> QuerySet[User]:
    """People who belong or belonged to the shop: the only ones its pages can find."""
    return User.objects.filter(memberships__shop=shop).distinct()


def open_invitations(shop: Shop, *, roles: tuple[str, ...] = tuple(Role.values)) -> QuerySet[Invitation]:
    """Invitations neither used nor withdrawn, for the roles that the reader may invite to; the newest first."""
    return (
        Invitation.objects.filter(shop=shop, role__in=roles, accepted_at=None, withdrawn_at=None)
        .select_related("invited_by")
        .order_by("-sent_at", "pk")
    )


def invitation_of_secret(secret: str) -> Invitation | None:
    """The invitation a link belongs to, open or not; None for a link that was never sent or was replaced."""
    return Invitation.objects.filter(secret_digest=digest_of(secret)).select_related("shop", "invited_by").first()


def places_of(person: User) -> list[tuple[Shop, frozenset[str]]]:
    """The shops a person belongs to now with the roles held there, by name; one query."""
    rows = (
        Membership.objects.filter(user=person, ended_at=None).select_related("shop").order_by("shop__name", "shop_id")
    )
    roles: dict[Shop, set[str]] = {}
    for row in rows:
        roles.setdefault(row.shop, set()).add(row.role)
    return [(shop, frozenset(held)) for shop, held in roles.items()]
