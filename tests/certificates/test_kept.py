"""The database itself refuses to change or delete what a certificate rests on; plain SQL is tried."""

from collections.abc import Callable
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction

from assessments.models import Attempt
from certificates.models import Certificate
from tests.factories import AttemptFactory, ResponseFactory
from tests.factories_certificates import CertificateFactory

pytestmark = pytest.mark.django_db
NAMES = ("holder_name", "trainer_name", "issuer_name")


def run(sql: str, *arguments: Any) -> int:
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(sql, arguments)
        return int(cursor.rowcount)


@pytest.fixture
def refused() -> Callable[..., None]:
    def check(sql: str, *arguments: object) -> None:
        with pytest.raises(DatabaseError, match=r"kept|handed in"):
            run(sql, *arguments)

    return check


@pytest.mark.parametrize("table", ["certificates_event", "certificates_handson", "certificates_certificate"])
def test_no_record_is_deleted(table: str, refused: Callable[..., None]) -> None:
    CertificateFactory.create()

    refused(f"DELETE FROM {table}")


@pytest.mark.parametrize(
    "change",
    [
        "certificates_event SET reason = 'another'",
        "certificates_event SET kind = 'revoked'",
        "certificates_handson SET has_passed = has_passed",
        "certificates_handson SET criteria = '[]'",
        "certificates_certificate SET number = 'AAAAAAAAAA'",
        "certificates_certificate SET shop_name = 'Another'",
        "certificates_certificate SET scope = 'another'",
        "certificates_certificate SET scope_title = 'Another'",
        "certificates_certificate SET casings = '[]'",
        "certificates_certificate SET edition = 'another'",
        "certificates_certificate SET edition_version = '1'",
        "certificates_certificate SET pass_mark = 'none'",
        "certificates_certificate SET house_rules = '[]'",
        "certificates_certificate SET issued_date = '2020-01-01'",
        "certificates_certificate SET expires_date = '2040-01-01'",
        "certificates_certificate SET holder_id = holder_id",
        "certificates_certificate SET shop_id = shop_id",
        "certificates_certificate SET attempt_id = attempt_id",
        "certificates_certificate SET hands_on_id = hands_on_id",
        "certificates_certificate SET id = id",
    ],
)
def test_no_record_is_changed(change: str, refused: Callable[..., None]) -> None:
    CertificateFactory.create()

    refused(f"UPDATE {change}")


def test_every_column_of_a_certificate_but_the_names_is_guarded(refused: Callable[..., None]) -> None:
    CertificateFactory.create()

    for field in Certificate._meta.concrete_fields:
        if field.column not in NAMES:
            refused(f"UPDATE certificates_certificate SET {field.column} = {field.column}")


@pytest.mark.parametrize("name", NAMES)
def test_a_name_can_be_removed_on_request_but_not_replaced(name: str, refused: Callable[..., None]) -> None:
    certificate = CertificateFactory.create(**{name: "Dana Okafor"})

    refused(f"UPDATE certificates_certificate SET {name} = 'Somebody Else'")
    assert run(f"UPDATE certificates_certificate SET {name} = '' WHERE id = %s", certificate.pk) == 1
    refused(f"UPDATE certificates_certificate SET {name} = 'Dana Okafor'")


ROWS = {
    "assessments_attempt": "id = %s",
    "assessments_response": "attempt_id = %s",
    "assessments_formitem": "form_id = (SELECT form_id FROM assessments_attempt WHERE id = %s)",
    "assessments_form": "id = (SELECT form_id FROM assessments_attempt WHERE id = %s)",
}
CHANGES = {
    "assessments_attempt": "right_count = 40",
    "assessments_response": "answer = '\"1\"'",
    "assessments_formitem": "snapshot = '{}'",
    "assessments_form": "edition = 'another'",
}


def attempt_with_an_answer(**facts: object) -> Attempt:
    attempt = AttemptFactory.create(**facts)
    ResponseFactory.create(attempt=attempt)
    return attempt


@pytest.mark.parametrize("table", ROWS)
def test_after_hand_in_nothing_is_changed(table: str, refused: Callable[..., None]) -> None:
    attempt = attempt_with_an_answer(passed=True)

    refused(f"UPDATE {table} SET {CHANGES[table]} WHERE {ROWS[table]}", attempt.pk)


@pytest.mark.parametrize("table", ROWS)
def test_after_hand_in_nothing_is_deleted(table: str, refused: Callable[..., None]) -> None:
    attempt = attempt_with_an_answer(passed=True)

    refused(f"DELETE FROM {table} WHERE {ROWS[table]}", attempt.pk)


@pytest.mark.parametrize("table", ["assessments_response", "assessments_formitem", "assessments_form"])
def test_before_hand_in_work_goes_on(table: str) -> None:
    attempt = attempt_with_an_answer()
    attempt_with_an_answer(passed=True)  # somebody else's hand-in guards only their own

    assert run(f"UPDATE {table} SET {CHANGES[table]} WHERE {ROWS[table]}", attempt.pk) >= 1
