"""Practice of the tires of one scope: a shop with one asks about those, a shop with several lets choose."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments import acts
from assessments.models import Attempt, FormItem
from tests.factories import NOW, AttemptFactory
from tests.pages import ClientAs, Visit
from tests.terms import terms_of
from training.models import Shop, User

pytestmark = pytest.mark.django_db
LIGHT, STEEL = "north-america-light", "north-america-steel"
# what each scope is for, as its title says
TIRES = {LIGHT: {"passenger", "light-truck-fabric"}, STEEL: {"light-truck-steel", "truck"}}


@pytest.fixture
def both(own_shop: Shop) -> Shop:
    own_shop.scopes = [LIGHT, STEEL]
    own_shop.save()
    return own_shop


def start(shop: Shop, learner: User, scope: str = "", skill: str = "") -> Attempt:
    return acts.start_practice(shop=shop, learner=learner, skill=skill, scope=scope, at=NOW)


def casings_asked(attempt: Attempt) -> set[str]:
    """Of the tires asked about; whoever has to tell fabric from steel is shown both, whatever the scope."""
    rows = FormItem.objects.filter(form=attempt.form).exclude(family="casing-class")
    cases = [snapshot["case"] for snapshot in rows.values_list("snapshot", flat=True)]
    return {case["tire"]["casing"] for case in cases if case and "casing" in case.get("tire", {})}


@pytest.mark.parametrize("scope", TIRES)
def test_it_asks_about_the_tires_of_its_scope_alone(scope: str, both: Shop, apprentice: User, trainer: User) -> None:
    asked = [start(both, who, scope) for who in (apprentice, trainer)]
    for attempt in asked:
        for position in range(1, 9):
            acts.answer_practice(attempt=attempt, position=position, answer="", at=NOW)

    found = casings_asked(asked[0]) | casings_asked(asked[1])

    assert found
    assert found <= TIRES[scope]
    assert {attempt.form.scope for attempt in asked} == {scope}


def test_without_a_choice_it_is_of_the_first_scope_of_the_shop(own_shop: Shop, apprentice: User) -> None:
    assert start(own_shop, apprentice).form.scope == LIGHT
    own_shop.scopes = [STEEL]
    assert start(own_shop, apprentice).form.scope == STEEL


def test_the_unfinished_one_of_the_same_skill_and_scope_goes_on(both: Shop, apprentice: User) -> None:
    light, steel = start(both, apprentice, LIGHT), start(both, apprentice, STEEL)

    assert light != steel
    assert (start(both, apprentice, LIGHT), start(both, apprentice, STEEL)) == (light, steel)


def test_practice_from_before_there_were_scopes_goes_on_in_the_first(both: Shop, apprentice: User) -> None:
    older = AttemptFactory.create(practice=True, form__shop=both, form__learner=apprentice, form__skill="")

    assert start(both, apprentice, STEEL) != older
    assert start(both, apprentice, LIGHT) == older


@pytest.mark.parametrize("scope", [STEEL, "motorcycles"])
def test_a_scope_the_shop_does_not_work_in_is_refused(scope: str, own_shop: Shop, apprentice: User) -> None:
    with pytest.raises(acts.UnknownSkill, match=f'Scope: "{scope}" is not accepted; .*: {LIGHT}$'):
        start(own_shop, apprentice, scope)
    assert not Attempt.objects.exists()


def test_the_page_offers_the_tires_only_where_there_is_a_choice(own_shop: Shop, visit: Visit) -> None:
    address = reverse("assessments:practice", args=[own_shop.slug])
    alone = visit(address).content.decode()
    own_shop.scopes = [LIGHT, STEEL]
    own_shop.save()
    several = visit(f"{address}?scope={STEEL}").content.decode()

    assert 'aria-label="Tires"' not in alone
    assert f'{address}?scope={STEEL}" aria-current="page">Steel-body light truck and truck tires</a>' in several
    assert f'<input type="hidden" name="scope" value="{STEEL}">' in several
    assert f'name="scope" value="{LIGHT}"' not in several


@pytest.mark.parametrize(("casing", "scope"), [("truck", STEEL), ("passenger", LIGHT), ("motorcycle", LIGHT)])
def test_a_lesson_about_some_tires_leads_to_their_practice(casing: str, scope: str, both: Shop, visit: Visit) -> None:
    address = reverse("assessments:practice", args=[both.slug])

    assert f'{address}?scope={scope}" aria-current="page"' in visit(f"{address}?casing={casing}").content.decode()


# The length of a cut that takes a tire off the road stands in the C&U Regulations 1986, 27, and in no law of the US.
@pytest.mark.parametrize(
    ("edition", "asked", "not_asked"),
    [
        ("north-america", "Largest injury for this casing", "How long a cut may be"),
        ("united-kingdom", "How long a cut may be", "From the hole to the shoulder"),
    ],
)
def test_it_lists_nothing_that_its_rulebook_does_not_ask(
    edition: str, asked: str, not_asked: str, own_shop: Shop, visit: Visit
) -> None:
    own_shop.edition = edition
    own_shop.save()

    page = visit(reverse("assessments:practice", args=[own_shop.slug])).content.decode()

    assert asked in page
    assert not_asked not in page


def test_a_question_says_for_which_tires_it_is_asked_where_there_are_several(
    own_shop: Shop, apprentice: User, trainer: User, client_as: ClientAs
) -> None:
    own_shop.scopes = [LIGHT, STEEL]
    own_shop.save()
    taken = acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop, STEEL), at=timezone.now())
    practiced = start(own_shop, trainer, STEEL)  # to the apprentice practice is closed now
    asked = [
        (trainer, "assessments:practice_item", practiced.form, "Practice for steel-body light truck"),
        (apprentice, "assessments:item", taken.form, "Assessment for steel-body light truck and truck tires"),
    ]
    pages = [
        (client_as(who), reverse(address, args=[own_shop.slug, form.reference, 1]), words)
        for who, address, form, words in asked
    ]
    for client, page, words in pages:
        assert words in client.get(page).content.decode()
    own_shop.scopes = [STEEL]
    own_shop.save()
    for client, page, words in pages:
        assert words not in client.get(page).content.decode()


def test_practicing_again_stays_with_the_tires(both: Shop, client_as: ClientAs) -> None:
    client = client_as("apprentice")
    began = client.post(reverse("assessments:practice_start", args=[both.slug]), {"scope": STEEL, "skill": "safety"})
    attempt = Attempt.objects.select_related("form").get()
    for position in range(1, attempt.form.size + 1):
        acts.answer_practice(attempt=attempt, position=position, answer="", at=NOW)

    end = client.get(reverse("assessments:practice_end", args=[both.slug, attempt.form.reference])).content.decode()

    assert str(attempt.form.reference) in began["Location"]
    assert "steel-body light truck and truck tires" in end
    assert f'name="scope" value="{STEEL}"' in end
