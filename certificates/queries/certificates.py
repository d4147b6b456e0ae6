"""Certificates and hands-on records, as far as the reader may see them."""

from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, Q, QuerySet

from assessments.pages.passing import curve_table
from certificates.documents.certificate import CertificateRecord
from certificates.documents.note import Simulated
from certificates.models import Certificate, Event, HandsOn, Standing, status_on
from certificates.numbers import show_number
from training.access import Place
from training.models import Role, User
from training.trade.speech import saying

NAME_REMOVED = saying("(name removed on request)")
OVERSEERS = (Role.TRAINER, Role.OWNER)


def member_in(place: Place) -> QuerySet[User]:
    """People who belong to the shop now."""
    return User.objects.filter(memberships__shop=place.shop, memberships__ended_at=None).distinct()


def learner_in(place: Place) -> QuerySet[User]:
    """People a trainer of the shop can evaluate: its members now, all but the trainer."""
    return member_in(place).exclude(pk=place.person.pk)


def hands_on_in(place: Place) -> QuerySet[HandsOn]:
    """The shop's hands-on records; for whoever is neither trainer nor owner, their own."""
    records = HandsOn.objects.filter(shop=place.shop).select_related("learner", "trainer", "shop")
    return records if place.has(*OVERSEERS) else records.filter(learner=place.person)


def certificates_in(place: Place) -> QuerySet[Certificate]:
    """The shop's certificates with their events; for whoever is neither trainer nor owner, their own."""
    seen = Q() if place.has(*OVERSEERS) else Q(holder=place.person)
    return _with_events().filter(seen, shop=place.shop)


def on_the_web() -> QuerySet[Certificate]:
    """Every certificate, for the page that anyone may open by its number: found one at a time, never listed."""
    return _with_events()


def standing_of(certificate: Certificate, at: datetime) -> Standing:
    """The certificate's standing on the shop's day at an instant; no query when shop and events are at hand."""
    zone = ZoneInfo(certificate.shop.time_zone)
    return status_on(certificate, certificate.events.all(), at.astimezone(zone).date(), zone)


def printed(certificate: Certificate, *, site: str, path: str) -> CertificateRecord:
    """What the printed certificate says; `site` is scheme and host, `path` the check page's path."""
    return CertificateRecord(
        number=show_number(certificate.number),
        holder_name=certificate.holder_name or str(NAME_REMOVED),
        scope_title=certificate.scope_title,
        casings=tuple(certificate.tires),
        shop_name=certificate.shop_name,
        issued_date=certificate.issued_date,
        expires_date=certificate.expires_date,
        edition_title=certificate.edition_title,
        edition_version=certificate.edition_version,
        house_rules=tuple(certificate.house_rules),
        assessed_date=certificate.assessed_date,
        right_count=certificate.right_count,
        asked_count=certificate.asked_count,
        unsafe_count=certificate.unsafe_count,
        pass_mark=certificate.pass_mark,
        curve=simulated(certificate),
        hands_on_date=certificate.hands_on_date,
        trainer_name=certificate.trainer_name or str(NAME_REMOVED),
        issuer_name=certificate.issuer_name or str(NAME_REMOVED),
        site=site,
        path=path,
    )


def simulated(certificate: Certificate) -> Simulated | None:
    """Who passes the pass mark of a certificate, as simulated people did; None where no curve was kept with it."""
    table = curve_table(certificate.curve)
    return Simulated(table.ability, table.held, table.people, table.forms) if table is not None else None


def _with_events() -> QuerySet[Certificate]:
    events = Prefetch("events", Event.objects.select_related("by").order_by("order"))
    return Certificate.objects.select_related("shop", "holder", "hands_on", "attempt__form").prefetch_related(events)
