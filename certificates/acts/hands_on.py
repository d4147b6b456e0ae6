"""Recording what a trainer saw a learner do."""

from collections.abc import Collection, Iterator, Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from certificates.models import HandsOn
from certificates.queries import Scope
from training.locks import compute_then_keep
from training.models import Membership, Role, Shop, User
from training.rulebook import Criterion, Edition, Step, procedure
from training.trade.speech import in_language, say

MET, NOT_MET = "met", "not-met"


class HandsOnRefused(Exception):
    """Nothing was recorded: the words say why."""


def criterion_keys(edition: Edition, casings: Collection[str] | None = None) -> Iterator[tuple[str, Step, Criterion]]:
    """Every criterion of the rulebook's procedure, in the order of the work, with the key its mark is given under.

    With `casings` only those that are seen on them.
    """
    for step in procedure(edition):
        for criterion in step.criteria:
            if casings is None or criterion.is_for(casings):
                yield f"{step.id}.{criterion.id}", step, criterion


def record_hands_on(
    *,
    shop: Shop,
    learner: User,
    trainer: User,
    scope: Scope,
    edition: Edition,
    marks: Mapping[str, str],
    remarks: str,
    press: UUID,
    at: datetime,
) -> HandsOn:
    """Keep one evaluation; `marks` gives "met" or "not-met" for each key of `criterion_keys` for the scope's casings.

    One critical criterion not met fails it. The same `press` again gives back the record it made.
    Raises HandsOnRefused when somebody evaluates themself, is not in the shop in that role, or a mark is missing.
    """
    members = Membership.objects.filter(shop=shop, user__in=[learner, trainer], ended_at=None)

    def found() -> HandsOn | None:
        made = HandsOn.objects.filter(press=press, shop=shop, learner=learner, trainer=trainer).first()
        if made is not None:
            return made
        if learner == trainer:
            raise HandsOnRefused(
                say("{trainer} cannot evaluate {trainer}: another trainer must watch the work.", trainer=trainer.name)
            )
        held = list(members.values_list("user_id", "role"))
        if (trainer.pk, Role.TRAINER) not in held:
            raise HandsOnRefused(say("{person} is no trainer of {shop}.", person=trainer.name, shop=shop.name))
        if learner.pk not in {user for user, _ in held}:
            raise HandsOnRefused(say("{person} does not belong to {shop}.", person=learner.name, shop=shop.name))
        return None

    def written(_: object) -> HandsOn:
        criteria = _criteria(edition, scope, marks)
        record = HandsOn(
            press=press,
            shop=shop,
            learner=learner,
            trainer=trainer,
            scope=scope.slug,
            edition=edition.name,
            edition_version=edition.version,
            criteria=criteria,
            remarks=remarks,
            has_passed=all(line["mark"] == MET for line in criteria if line["critical"]),
            recorded_at=at,
        )
        record.clean_fields()
        return record

    def keep(record: HandsOn) -> HandsOn:
        record.save()
        return record

    return compute_then_keep(
        found=found,
        rests_on=lambda: (
            list(members.order_by("pk").values_list("pk", flat=True)),
            list(HandsOn.objects.filter(press=press).values_list("pk", flat=True)),
        ),
        compute=written,
        # holding the membership rows makes a second press wait for the first, and keeps both people in the shop
        lock=lambda: list(members.select_for_update(no_key=True).order_by("pk")),
        keep=keep,
        refusal=HandsOnRefused(say("The people of the shop are being changed at this moment; nothing was recorded.")),
    )


def _criteria(edition: Edition, scope: Scope, marks: Mapping[str, str]) -> list[dict[str, Any]]:
    """Every line of the sheet as it was read, with its mark. Raises HandsOnRefused for a wrong mark."""
    known = list(criterion_keys(edition, scope.casings))
    if missing := [criterion.text for key, _, criterion in known if marks.get(key) not in (MET, NOT_MET)]:
        raise HandsOnRefused(say('Mark every criterion as met or not met; missing: "{missing}".', missing=missing[0]))
    if strange := sorted(set(marks) - {key for key, _, _ in known}):
        raise HandsOnRefused(
            say(
                '"{strange}" is no criterion of {title} {version} for these tires; load the page again.',
                strange=strange[0],
                title=edition.title,
                version=edition.version,
            )
        )
    with in_language(edition.language):  # a record is kept in the words of the shop
        return [
            {
                "id": key,
                "step": str(step.title),
                "text": str(criterion.text),
                "critical": criterion.critical,
                "mark": marks[key],
                "kind": criterion.kind,
                "source": str(criterion.source),
            }
            for key, step, criterion in known
        ]
