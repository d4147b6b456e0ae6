"""What logging in and changing a password say when they refuse: the field and what to do."""

import pytest
from django.test import Client

from tests.pages import text_of

pytestmark = pytest.mark.django_db


def test_logging_in_names_each_field_that_is_empty(client: Client) -> None:
    page = text_of(client.post("/accounts/login/", {"login": "", "password": ""}).content.decode())

    assert "Email: it is empty; give the address you log in with." in page
    assert "Password: it is empty; give your password." in page
    assert "This field is required" not in page


def test_logging_in_refuses_what_is_no_address(client: Client) -> None:
    page = text_of(client.post("/accounts/login/", {"login": "dana", "password": "wrong-one"}).content.decode())

    assert "Email: this is not an address; give one such as dana@example.org." in page


def test_logging_in_does_not_tell_a_wrong_password_from_an_unknown_address(client: Client, person) -> None:
    known = client.post("/accounts/login/", {"login": person("apprentice").email, "password": "wrong-one"})
    unknown = client.post("/accounts/login/", {"login": "nobody@example.org", "password": "wrong-one"})

    for page in (known, unknown):
        assert "Address and password do not match; type both again." in text_of(page.content.decode())


def test_changing_a_password_names_each_field_that_is_empty(client: Client, person) -> None:
    user = person("apprentice")
    user.set_password("crayon-on-rubber")
    user.save()
    client.force_login(user)

    page = text_of(client.post("/accounts/password/", {}).content.decode())

    assert "Current password: it is empty; give the password you log in with now." in page
    assert "New password: it is empty; give one." in page
    assert "The new password again: it is empty; type the new password once more." in page
