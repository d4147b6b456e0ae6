"""One row of each guarded table, and what the database answers to whoever changes or deletes it.

`python -m tests.training.guarded_rows STEP ...` takes steps in the project of the settings and prints as JSON what came
of each: the words of what stopped it, of `migrate`, `make` (the rows), `open` (the site) and `check`; of `try`, which
guards refused.
"""

import json
import sys
from collections.abc import Callable
from contextlib import redirect_stdout
from importlib import import_module

import django
from django.core.management import call_command

EXPECTED = {
    "assessments_attempt": ["DELETE", "UPDATE"],
    "assessments_drawflag": ["DELETE", "UPDATE"],
    "assessments_familyoff": ["DELETE", "UPDATE"],
    "assessments_form": ["DELETE", "UPDATE"],
    "assessments_formitem": ["DELETE", "UPDATE"],
    "assessments_lateanswer": ["DELETE", "UPDATE"],
    "assessments_moment": ["DELETE", "UPDATE"],
    "assessments_paper": ["DELETE", "UPDATE"],
    "assessments_response": ["DELETE", "UPDATE"],
    "assessments_taught": ["DELETE", "UPDATE"],
    "assessments_withdrawal": ["DELETE", "UPDATE"],
    "certificates_certificate": ["DELETE", "UPDATE"],
    "certificates_event": ["DELETE", "UPDATE"],
    "certificates_handson": ["DELETE", "UPDATE"],
    "training_houseruleset": ["DELETE", "UPDATE"],
    "training_photograph": ["DELETE", "UPDATE"],
    "training_repairunit": ["DELETE"],
    "training_shopscope": ["DELETE", "UPDATE"],
    "training_tirecheck": ["DELETE", "UPDATE"],
}


def make() -> None:
    """Make rows that every guard's condition fits."""
    from assessments.acts import note_shown, take_back_withdrawal, withdraw_question
    from assessments.models import Attempt, FormItem, LateAnswer, Taught
    from tests.factories import (
        NOW,
        AttemptFactory,
        DrawFlagFactory,
        FamilyOffFactory,
        HouseRuleSetFactory,
        MembershipFactory,
        PaperFactory,
        PhotographFactory,
        RepairUnitFactory,
        ResponseFactory,
    )
    from tests.factories_certificates import CertificateFactory
    from tests.kept_checks import keep
    from training.models import ShopScope

    member = MembershipFactory.create()
    certificate = CertificateFactory.create()
    ResponseFactory.create(attempt=certificate.attempt)
    note_shown(attempt=certificate.attempt, position=1, at=NOW)
    Taught.objects.create(attempt=certificate.attempt, position=1, misconception="lean-ignored", at=NOW, read_at=NOW)
    LateAnswer.objects.create(attempt=certificate.attempt, position=1, answer='"2"', arrived_at=NOW)
    withdrawn = AttemptFactory.create(not_passed=True)
    item = FormItem.objects.get(form=withdrawn.form, position=1)
    for act in (withdraw_question, take_back_withdrawal):
        act(item=item, reason="Two answers were right.", by=member.user, at=NOW)
    PaperFactory.create(form__shop=member.shop)
    Attempt.objects.filter(handed_in_at=None).update(handed_in_at=NOW, open_for="")
    for factory in (DrawFlagFactory, FamilyOffFactory, HouseRuleSetFactory, PhotographFactory, RepairUnitFactory):
        factory(shop=member.shop)
    keep(shop=member.shop, person=member.user)
    ShopScope.objects.create(shop=member.shop, scope="puncture-light", since_at=NOW, by=member.user)


def refusals() -> dict[str, list[str]]:
    """Which of its acts each table refuses in a guard's words."""
    from django.db import DatabaseError, connection, transaction

    told: dict[str, list[str]] = {table: [] for table in EXPECTED}
    for table in EXPECTED:
        for act, sql in (("DELETE", f"DELETE FROM {table}"), ("UPDATE", f"UPDATE {table} SET id = id")):
            try:
                with transaction.atomic(), connection.cursor() as cursor:
                    cursor.execute(sql)
                    transaction.set_rollback(True)
            except DatabaseError as refusal:
                told[table] += [act] if str(refusal).startswith(("kept: ", "handed in: ")) else [str(refusal)]
    return told


def take(step: str) -> object:
    """Take one step; what came of it."""
    if step == "try":
        return refusals()
    do: dict[str, Callable[[], object]] = {
        "make": make,
        "open": lambda: import_module("training.config.wsgi"),
        "migrate": lambda: call_command("migrate", verbosity=0, skip_checks=False),
        "check": lambda: call_command("check", databases=["default"]),
    }
    try:
        do[step]()
    except Exception as stopped:
        return f"{type(stopped).__name__}: {stopped}"
    return ""


if __name__ == "__main__":
    django.setup()
    with redirect_stdout(sys.stderr):
        found = [take(step) for step in sys.argv[1:]]
    print(json.dumps(found))
