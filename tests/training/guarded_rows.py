"""One row of each guarded table, and what the database answers to whoever changes or deletes it.

`python -m tests.training.guarded_rows make` puts the rows into the database of the settings; `try` prints as JSON
what each guard answered.
"""

import json
import sys

import django

EXPECTED = {
    "assessments_attempt": ["DELETE", "UPDATE"],
    "assessments_drawflag": ["DELETE", "UPDATE"],
    "assessments_familyoff": ["DELETE", "UPDATE"],
    "assessments_form": ["DELETE", "UPDATE"],
    "assessments_formitem": ["DELETE", "UPDATE"],
    "assessments_paper": ["DELETE", "UPDATE"],
    "assessments_response": ["DELETE", "UPDATE"],
    "certificates_certificate": ["DELETE", "UPDATE"],
    "certificates_event": ["DELETE", "UPDATE"],
    "certificates_handson": ["DELETE", "UPDATE"],
    "training_houseruleset": ["DELETE", "UPDATE"],
    "training_repairunit": ["DELETE"],
    "training_shopscope": ["DELETE", "UPDATE"],
    "training_tirecheck": ["DELETE", "UPDATE"],
}


def make() -> None:
    """Make rows that every guard's condition fits."""
    from assessments.models import Attempt
    from tests.factories import (
        NOW,
        DrawFlagFactory,
        FamilyOffFactory,
        HouseRuleSetFactory,
        MembershipFactory,
        PaperFactory,
        RepairUnitFactory,
        ResponseFactory,
    )
    from tests.factories_certificates import CertificateFactory
    from tests.kept_checks import keep
    from training.models import ShopScope

    member = MembershipFactory.create()
    certificate = CertificateFactory.create()
    ResponseFactory.create(attempt=certificate.attempt)
    PaperFactory.create(form__shop=member.shop)
    Attempt.objects.filter(handed_in_at=None).update(handed_in_at=NOW, open_for="")
    for factory in (DrawFlagFactory, FamilyOffFactory, HouseRuleSetFactory, RepairUnitFactory):
        factory(shop=member.shop)
    keep(shop=member.shop, person=member.user)
    ShopScope.objects.create(shop=member.shop, scope="puncture-light", since_at=NOW, by=member.user)


def answers() -> dict[str, dict[str, str]]:
    """What the database answers to each way of touching each table, by table and act."""
    from django.db import DatabaseError, connection, transaction

    told: dict[str, dict[str, str]] = {}
    for table, acts in EXPECTED.items():
        for act in acts:
            sql = f"DELETE FROM {table}" if act == "DELETE" else f"UPDATE {table} SET id = id"
            try:
                with transaction.atomic(), connection.cursor() as cursor:
                    cursor.execute(sql)
                    answer = f"{cursor.rowcount} rows"
                    transaction.set_rollback(True)
            except DatabaseError as refusal:
                answer = str(refusal)
            told.setdefault(table, {})[act] = answer.splitlines()[0]
    return told


if __name__ == "__main__":
    django.setup()
    if sys.argv[1] == "make":
        make()
    else:
        print(json.dumps(answers()))
