"""Stored JSON: written with the number of its schema, read back by that number, refused under any other."""

import pytest
from django.apps import apps
from django.db import connection, models

from assessments.models import Attempt
from tests.factories import AttemptFactory, ShopFactory
from training.models import Shop
from training.models.documents import DocumentField
from training.stored import UnknownSchema, opened

SCOPES = "training.Shop.scopes"


def stored(field: str = "scopes") -> str:
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT {field} FROM training_shop")
        return str(cursor.fetchone()[0])


def test_every_json_column_of_ours_is_a_document() -> None:
    ours = [
        field
        for label in ("training", "assessments", "certificates")
        for model in apps.get_app_config(label).get_models()
        for field in model._meta.concrete_fields
        if isinstance(field, models.JSONField)
    ]

    assert len(ours) >= 16
    assert {type(field) for field in ours} == {DocumentField}


@pytest.mark.django_db
class TestTheField:
    def test_stores_its_number_beside_the_content(self) -> None:
        ShopFactory.create(scopes=["puncture-light"])

        assert stored() == '{"schema": 1, "content": ["puncture-light"]}'
        assert Shop.objects.get().scopes == ["puncture-light"]

    def test_writes_so_in_an_update_of_many_too(self) -> None:
        shop = ShopFactory.create()
        shop.scopes = ["puncture-steel"]

        Shop.objects.bulk_update([shop], ["scopes"])
        assert Shop.objects.get().scopes == ["puncture-steel"]
        Shop.objects.update(scopes=["puncture-light"])
        assert Shop.objects.get().scopes == ["puncture-light"]

    def test_can_be_looked_into(self) -> None:
        AttemptFactory.create(passed=True)

        [score] = Attempt.objects.values_list("by_skill__content__size-limits", flat=True)
        assert score == [3, 3]

    def test_refuses_a_number_from_a_later_version(self) -> None:
        ShopFactory.create()
        with connection.cursor() as cursor:
            cursor.execute("""UPDATE training_shop SET scopes = '{"schema": 2, "content": []}'""")

        with pytest.raises(UnknownSchema, match=rf"^{SCOPES}: a stored document of schema 2 .* this version reads 1$"):
            Shop.objects.get()


class TestTheReader:
    OLDER = {1: lambda content: {"scopes": content}}

    def test_brings_an_earlier_schema_to_todays(self) -> None:
        read = opened({"schema": 1, "content": ["a"]}, name=SCOPES, schema=2, older=self.OLDER)

        assert read == opened({"schema": 2, "content": {"scopes": ["a"]}}, name=SCOPES, schema=2, older=self.OLDER)

    @pytest.mark.parametrize(
        ("document", "told"),
        [
            ({"schema": 3, "content": []}, "schema 3"),
            ({"schema": "1", "content": []}, "schema '1'"),
            ({"schema": None, "content": []}, "schema None"),
            ({"schema": True, "content": []}, "schema True"),
            ({"schema": 1.0, "content": []}, r"schema 1\.0"),
            ({"schema": [1], "content": []}, r"schema \[1\]"),
            ({"content": []}, "no schema"),
            (["puncture-light"], "no schema"),
            (None, "no schema"),
        ],
    )
    def test_refuses_what_it_does_not_know(self, document, told) -> None:
        with pytest.raises(UnknownSchema, match=f"document of {told} cannot be read; this version reads 1, 2"):
            opened(document, name=SCOPES, schema=2, older=self.OLDER)
