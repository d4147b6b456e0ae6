"""Factories: every default a test does not care about is filled here; a test spells out what it does care about.

An item made by `an_item` is written by hand, not drawn: tests of forms and attempts do not lean on the families.
"""

from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any

import factory
from django.contrib.auth.hashers import make_password
from factory.django import DjangoModelFactory

from assessments.models import (
    Attempt,
    Blueprint,
    DrawFlag,
    ExtraRound,
    FamilyOff,
    Form,
    FormItem,
    Paper,
    Purpose,
    Response,
)
from assessments.questions.items.figures import Picture, Sight
from assessments.questions.items.item import Item, Option
from training.models import (
    Assignment,
    HouseRuleSet,
    Invitation,
    Membership,
    Notice,
    Photograph,
    Progress,
    RepairUnit,
    Role,
    Shop,
    User,
)

# An ordinary working morning, a Wednesday.
NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
PASSWORD = "a-quiet-valve-core"


class UserFactory(DjangoModelFactory[User]):
    """A person with an invented name; `with_password=True` can log in with PASSWORD."""

    class Meta:
        model = User

    email = factory.Sequence(lambda n: f"person{n}@shop.example")
    name = factory.Sequence(lambda n: f"Person {n}")
    password = "!"

    class Params:
        with_password = factory.Trait(password=factory.LazyFunction(lambda: make_password(PASSWORD)))


class ShopFactory(DjangoModelFactory[Shop]):
    """A shop on the North American rulebook, inches first."""

    class Meta:
        model = Shop

    slug = factory.Sequence(lambda n: f"shop-{n}")
    name = factory.Sequence(lambda n: f"Shop {n}")
    time_zone = "America/Denver"


class MembershipFactory(DjangoModelFactory[Membership]):
    """A person in a shop: an apprentice, or with the trait `trainer`, `owner` or `ended`."""

    class Meta:
        model = Membership

    user = factory.SubFactory(UserFactory)
    shop = factory.SubFactory(ShopFactory)
    role = Role.APPRENTICE
    since_at = NOW - timedelta(days=30)

    class Params:
        trainer = factory.Trait(role=Role.TRAINER)
        owner = factory.Trait(role=Role.OWNER)
        ended = factory.Trait(ended_at=NOW - timedelta(days=1))


class InvitationFactory(DjangoModelFactory[Invitation]):
    """An open invitation sent an hour ago; traits `expired`, `accepted`, `withdrawn`."""

    class Meta:
        model = Invitation

    shop = factory.SubFactory(ShopFactory)
    email = factory.Sequence(lambda n: f"invited{n}@shop.example")
    name = factory.Sequence(lambda n: f"Invited {n}")
    role = Role.APPRENTICE
    secret_digest = factory.Sequence(lambda n: f"{n:064x}")
    invited_by = factory.SubFactory(UserFactory)
    sent_at = NOW - timedelta(hours=1)
    expires_at = factory.LazyAttribute(lambda made: made.sent_at + timedelta(days=14))

    class Params:
        expired = factory.Trait(sent_at=NOW - timedelta(days=15))
        accepted = factory.Trait(accepted_at=NOW)
        withdrawn = factory.Trait(withdrawn_at=NOW)


class AssignmentFactory(DjangoModelFactory[Assignment]):
    """A module due in a week."""

    class Meta:
        model = Assignment

    shop = factory.SubFactory(ShopFactory)
    learner = factory.SubFactory(UserFactory)
    module = "inspect-and-reject"
    due_date = (NOW + timedelta(days=7)).date()
    assigned_by = factory.SubFactory(UserFactory)
    assigned_at = NOW - timedelta(days=1)


class ProgressFactory(DjangoModelFactory[Progress]):
    """A lesson read today."""

    class Meta:
        model = Progress

    shop = factory.SubFactory(ShopFactory)
    learner = factory.SubFactory(UserFactory)
    module = "inspect-and-reject"
    lesson = "off-the-wheel"
    content_version = "v1"
    read_at = NOW


class NoticeFactory(DjangoModelFactory[Notice]):
    """A line on somebody's start page."""

    class Meta:
        model = Notice

    shop = factory.SubFactory(ShopFactory)
    person = factory.SubFactory(UserFactory)
    text = "Read the limits again."
    written_at = NOW


class HouseRuleSetFactory(DjangoModelFactory[HouseRuleSet]):
    """A first set with one rule, a hole of 5 mm at most; the shop itself is not changed by it."""

    class Meta:
        model = HouseRuleSet

    shop = factory.SubFactory(ShopFactory)
    number = 1
    edition = "north-america"
    edition_version = "2026.1+h00000000"
    rules = factory.LazyFunction(
        lambda: [{"clause": "injury-size", "limits": ["5 mm"], "since": "2026-11-25", "note": ""}]
    )
    set_by = factory.SubFactory(UserFactory)
    set_at = NOW


class RepairUnitFactory(DjangoModelFactory[RepairUnit]):
    """A medium patch on the shelf; traits `one_piece`, `stem`."""

    class Meta:
        model = RepairUnit

    shop = factory.SubFactory(ShopFactory)
    name = factory.Sequence(lambda n: f"unit {n}")
    kind = "patch"
    length = "75 mm"
    width = "65 mm"
    injury_max = "6 mm"
    casings = factory.LazyFunction(lambda: ["passenger"])
    added_by = factory.SubFactory(UserFactory)
    added_at = NOW

    class Params:
        one_piece = factory.Trait(kind="one-piece", stem_diameter="1/4 in")
        stem = factory.Trait(kind="stem", length="", width="", injury_min="3 mm")
        taken_off = factory.Trait(ended_by=factory.SubFactory(UserFactory), ended_at=NOW)


class PhotographFactory(DjangoModelFactory[Photograph]):
    """A kept photograph of a bulge on a passenger tire; traits `draft`, `confirmed`, `taken_back`."""

    class Meta:
        model = Photograph

    shop = factory.SubFactory(ShopFactory)
    condition = "bulge"
    look_alike = False
    casing = "passenger"
    content = factory.Sequence(lambda n: f"the pixels of photograph {n}".encode())
    digest = factory.LazyAttribute(lambda one: sha256(one.content).hexdigest())
    sent = factory.Sequence(lambda n: sha256(f"the file {n}".encode()).hexdigest())
    added_by = factory.SubFactory(UserFactory)
    added_at = NOW
    kept_at = NOW

    class Params:
        draft = factory.Trait(kept_at=None)
        confirmed = factory.Trait(confirmed_by=factory.SubFactory(UserFactory), confirmed_at=NOW)
        taken_back = factory.Trait(
            taken_back_by=factory.SubFactory(UserFactory), taken_back_at=NOW, reason="A shadow, no bulge."
        )


OPTIONS = ("Repair it with a one-piece unit", "Take it out of service", "Repair it with a stem and a patch")


def an_item(**facts: Any) -> Item:
    """One hand-written item: three options, "2" is right, "1" would release a rejected tire."""
    number = facts.get("format") == "number"
    given: dict[str, Any] = {
        "family": "by-hand",
        "skill": "size-limits",
        "edition": "north-america",
        "version": "2026.1",
        "seed": "by hand",
        "format": "one",
        "stem": "A passenger tire, off the wheel. The injury is 9 mm across.\nWhat do you do with this tire?",
        "figure": Picture(
            '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 40"><path d="M5 20h90" stroke="#211f1d"/></svg>',
            "A line across the crown.",
        ),
        "options": () if number else tuple(Option(str(n), text) for n, text in enumerate(OPTIONS, 1)),
        "key": "9 mm" if number else "2",
        "tolerance": "0.5 mm" if number else None,
        "units": ("in", "mm") if number else (),
        "distractors": {"12 mm": ("crown-is-all-tread",)}
        if number
        else {"1": ("size-does-not-matter",), "3": ("two-piece-only-when-steep",)},
        "unsafe": ("below 6 mm",) if number else ("1",),
        "explanation": (
            {
                "clause": "injury-size",
                "subject": "A",
                "holds": False,
                "found": "9 mm",
                "limit": "at most 1/4 in (6 mm)",
                "because": "After damage removal the hole may be at most 1/4 in (6 mm) across.",
                "kind": "guidance",
                "source": "US association, puncture repair procedures (wall chart)",
            },
        ),
        "sources": ("US association, puncture repair procedures (wall chart)",),
        "case": None,
        "lesson": "measure-and-choose/measure-the-injury",
        "features": {},
    }
    return Item(**(given | facts))


def a_pictured_item(*, look_alike: bool = False, pictures: int = 1, **facts: Any) -> Item:
    """The same with pictures of a bulge in place of the drawing, or of what is taken for one."""
    sights = tuple(Sight("bulge", "plain", look_alike, f"7/{number}") for number in range(pictures))
    figure = Picture("", "A computed picture of the sidewall.", sights)
    return an_item(figure=figure, **facts)


class BlueprintFactory(DjangoModelFactory[Blueprint]):
    """A built-in blueprint with the rule of before, which looks at the number of unsafe releases alone."""

    class Meta:
        model = Blueprint

    slug = factory.Sequence(lambda n: f"blueprint-{n}")
    version = "1"
    title = "Puncture repair, passenger and light truck"
    scope = "puncture-light"
    edition = "north-america"
    cells = factory.LazyFunction(lambda: [{"family": "by-hand", "count": 40}])
    minutes = 60
    pass_percent = 80
    unsafe_allowed = 1
    attempts_allowed = 3
    wait_hours = 24
    standing = "Provisional: set by judgment, not yet by measurement."


class FormFactory(DjangoModelFactory[Form]):
    """A form with `size` hand-written items (or give `items`); practice with the trait `practice`."""

    class Meta:
        model = Form

    shop = factory.SubFactory(ShopFactory)
    learner = factory.SubFactory(UserFactory)
    purpose = Purpose.ASSESSMENT
    blueprint = factory.SubFactory(BlueprintFactory)
    edition = "north-america"
    edition_version = "2026.1"
    units = "in"
    size = 3
    drawn_at = NOW - timedelta(minutes=10)

    class Params:
        practice = factory.Trait(purpose=Purpose.PRACTICE, blueprint=None, skill="size-limits")

    @classmethod
    def _create(cls, model_class: type[Form], *args: Any, items: list[Item] | None = None, **kwargs: Any) -> Form:
        drawn = [an_item() for _ in range(kwargs["size"])] if items is None else items
        form = Form.objects.create(**(kwargs | {"size": len(drawn)}))
        FormItem.objects.bulk_create(
            FormItem(
                form=form,
                position=position,
                family=item.family,
                skill=item.skill,
                lesson=item.lesson,
                format=item.format,
                open=item.open().to_json(),
                snapshot=item.to_json(),
            )
            for position, item in enumerate(drawn, 1)
        )
        return form


class AttemptFactory(DjangoModelFactory[Attempt]):
    """An open assessment started ten minutes ago; traits `practice`, `overdue`, `passed`, `not_passed`."""

    class Meta:
        model = Attempt

    form = factory.SubFactory(FormFactory)
    started_at = NOW - timedelta(minutes=10)
    closes_at = factory.LazyAttribute(lambda made: made.started_at + timedelta(minutes=60))
    open_for = factory.LazyAttribute(lambda made: f"{made.form.shop_id}/{made.form.learner_id}")

    class Params:
        practice = factory.Trait(form=factory.SubFactory(FormFactory, practice=True), closes_at=None, open_for="")
        overdue = factory.Trait(started_at=NOW - timedelta(minutes=61))
        passed = factory.Trait(
            handed_in_at=NOW,
            right_count=3,
            unsafe_count=0,
            by_skill={"size-limits": [3, 3]},
            outcome="passed",
            first_outcome="passed",
            open_for="",
        )
        not_passed = factory.Trait(
            handed_in_at=NOW,
            right_count=0,
            unsafe_count=2,
            by_skill={"size-limits": [0, 3]},
            outcome="not-passed",
            first_outcome="not-passed",
            open_for="",
        )


class ResponseFactory(DjangoModelFactory[Response]):
    """The right answer to the first item of `an_item`."""

    class Meta:
        model = Response

    attempt = factory.SubFactory(AttemptFactory)
    position = 1
    answer = '"2"'
    saved_at = NOW


class ExtraRoundFactory(DjangoModelFactory[ExtraRound]):
    """A new round given by a trainer now."""

    class Meta:
        model = ExtraRound

    shop = factory.SubFactory(ShopFactory)
    learner = factory.SubFactory(UserFactory)
    blueprint = factory.SubFactory(BlueprintFactory)
    given_by = factory.SubFactory(UserFactory)
    given_at = NOW
    reason = "We went through the position lesson together."


class DrawFlagFactory(DjangoModelFactory[DrawFlag]):
    """An open flag on a draw of the bench."""

    class Meta:
        model = DrawFlag

    shop = factory.SubFactory(ShopFactory)
    family = "size-verdict"
    seed = "bench:1/1"
    edition = "north-america"
    edition_version = "2026.1"
    units = "in"
    stem = "A passenger tire. The injury is 9 mm across.\nWhat now?"
    comment = "Nobody measures to the half millimeter here."
    by = factory.SubFactory(UserFactory)
    at = NOW


class FamilyOffFactory(DjangoModelFactory[FamilyOff]):
    """A family switched off now."""

    class Meta:
        model = FamilyOff

    shop = factory.SubFactory(ShopFactory)
    family = "size-verdict"
    reason = "We send these out."
    since_at = NOW
    by = factory.SubFactory(UserFactory)


class PaperFactory(DjangoModelFactory[Paper]):
    """A paper that is out: its form has three hand-written items, its attempt is open for thirty days from now."""

    class Meta:
        model = Paper

    form = factory.SubFactory(FormFactory, purpose=Purpose.PAPER)
    made_by = factory.SubFactory(UserFactory)
    made_at = factory.LazyAttribute(lambda made: made.form.drawn_at)

    @classmethod
    def _create(cls, model_class: type[Paper], *args: Any, **kwargs: Any) -> Paper:
        form, made_at = kwargs["form"], kwargs["made_at"]
        AttemptFactory.create(form=form, started_at=made_at, closes_at=made_at + timedelta(days=30))
        return Paper.objects.create(**kwargs)
