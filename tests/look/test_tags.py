"""The tags that are ours for less work say what Django's own say: texts, sentences and addresses in templates."""

from uuid import UUID

import pytest
from django.template import Context, Engine
from django.urls import NoReverseMatch, reverse
from django.utils.safestring import SafeString

from training.addresses import address
from training.speaking import speaking
from training.trade.speech import LANGUAGES

OURS = Engine(builtins=["training.templatetags.texts", "training.templatetags.addresses"])
DJANGO = Engine(builtins=["django.templatetags.i18n"])

VALUES = {
    "one": 1,
    "name": 'O\'Hara & "Sons" <b>',
    "safe": SafeString("<b>safe</b>"),
    "number": 1200,
    "part": 2.5,
    "nothing": None,
    "percent": "100%",
    "reference": UUID("12345678-1234-5678-1234-567812345678"),
    "slug": "quarry-road",
    "text": "Log out",
}
TEXTS = [
    '{% translate "Check a tire" %}',
    '{% translate "Log out" as told %}[{{ told }}]',
    '{% translate "A tire & a wheel, 100% looked at" %}',
    '{% translate "Tire" noop %}',
    "{% translate text %}",
    '{% translate "Tire"|upper %}',
    "{% blocktranslate trimmed %}The tire\n  and its tread.{% endblocktranslate %}",
    "{% blocktranslate %} As it\nstands {% endblocktranslate %}",
    "{% blocktranslate trimmed with who=name %}Tire of {{ who }}, 5% off.{% endblocktranslate %}",
    "{% blocktranslate trimmed with who=safe %}Tire of {{ who }}.{% endblocktranslate %}",
    "{% blocktranslate trimmed with a=number b=part c=nothing d=percent %}{{ a }} {{ b }} {{ c }} {{ d }}"
    "{% endblocktranslate %}",
    "{% blocktranslate trimmed %}Said from outside: {{ name }}{{ nowhere }}.{% endblocktranslate %}",
    "{% blocktranslate trimmed with who=name asvar told %}Tire of {{ who }}.{% endblocktranslate %}[{{ told }}]",
    "{% blocktranslate trimmed count tires=number %}{{ tires }} tire{% plural %}{{ tires }} tires"
    "{% endblocktranslate %}",
    "{% blocktranslate trimmed count tires=one with who=name %}One tire of {{ who }}{% plural %}"
    "{{ tires }} tires of {{ who }}{% endblocktranslate %}",
    "{% autoescape off %}{% blocktranslate trimmed with who=name %}Tire of {{ who }}.{% endblocktranslate %}"
    "{% endautoescape %}",
    "{% blocktranslate trimmed with who=name %}{{ who }}{% endblocktranslate %}{{ who }}",
]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("source", TEXTS)
def test_a_text_reads_as_django_prints_it(source: str, language: str) -> None:
    with speaking(language):
        told = [engine.from_string(source).render(Context(VALUES)) for engine in (OURS, DJANGO)]

    assert told[0] == told[1]


def test_a_text_read_once_is_spoken_in_each_language() -> None:
    template = OURS.from_string('{% translate "Check a tire" %}')
    one, many = "The tire of {{ who }} has {{ count }} hole.", "The tire of {{ who }} has {{ count }} holes."
    counted = "{% blocktranslate trimmed count count=holes with who=who %}"
    sentence = OURS.from_string(f"{counted}{one}{{% plural %}}{many}{{% endblocktranslate %}}")

    told = {}
    for tag in (*LANGUAGES, *LANGUAGES):
        with speaking(tag):
            told[tag] = template.render(Context())
            assert sentence.render(Context({"holes": 1, "who": "A"})) == "The tire of A has 1 hole."
            assert sentence.render(Context({"holes": 2, "who": "B"})) == "The tire of B has 2 holes."

    assert told == {"en-US": "Check a tire", "en-GB": "Check a tyre"}  # from memory: as each country spells it


@pytest.mark.parametrize(
    "source",
    [
        "{% url 'training:course' slug %}",
        "{% url 'training:lesson' slug 'measure-and-choose' 'two-injuries' %}",
        "{% url 'training:notice_put_away' shop=slug reference=reference %}",
        "{% url 'training:course' slug as there %}[{{ there }}]",
        "{% url 'training:nowhere' slug as there %}[{{ there }}]",
        "{% url 'training:read_typed' %}",
    ],
)
def test_an_address_is_the_one_that_django_finds(source: str) -> None:
    told = [engine.from_string(source).render(Context(VALUES)) for engine in (OURS, DJANGO, OURS)]

    assert told[0] == told[1] == told[2]


def test_an_address_that_is_not_there_is_refused() -> None:
    with pytest.raises(NoReverseMatch):
        OURS.from_string("{% url 'training:nowhere' slug %}").render(Context(VALUES))


def test_an_address_is_that_of_its_own_shop() -> None:
    pages = [(page, (slug,)) for slug in ("one", "two") for page in ("training:course", "training:check")]

    for _ in range(2):
        assert [address(page, *places) for page, places in pages] == [
            reverse(page, args=places) for page, places in pages
        ]
