"""Ratios of one run on this machine: `python -m tests.benchmarks`. Not part of the tests; absolute times are noise.

Pages and saving are CPU seconds of the whole request, against a bare Django view with three trivial queries that
passes through the same middleware; the certificate is set against a bare one-page ReportLab canvas with one embedded
font and a QR code of the same address.
"""

import io
import os
import tempfile
import time
from collections.abc import Callable
from statistics import median


def cpu(act: Callable[[], object], *, times: int, rounds: int = 5) -> float:
    """Median over rounds of CPU seconds for one call."""
    act()
    results = []
    for _ in range(rounds):
        start = time.process_time()
        for _ in range(times):
            act()
        results.append((time.process_time() - start) / times)
    return median(results)


def line(name: str, seconds: float, yardstick: float | None = None, *, aim: str = "", note: str = "") -> None:
    ratio = f"{seconds / yardstick:7.2f} x" if yardstick else " " * 9
    print(f"{name:42} {seconds * 1e6:12.0f} us {ratio}  {aim:18} {note}")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        os.environ["SOUND_CASING_DEMO"] = folder
        os.environ["DJANGO_SETTINGS_MODULE"] = "training.config.settings_demo"
        import django

        django.setup()
        from django.core.management import call_command
        from django.test.utils import override_settings

        call_command("demo", prepare=True, verbosity=0, stdout=io.StringIO())
        with override_settings(ROOT_URLCONF="tests.benchmarks.urls"):
            pages()
        rulebook_and_items()
        certificate()


def pages() -> None:
    """Pages and saving, with the demo shop's data."""
    from django.db import connection
    from django.test import Client
    from django.test.utils import CaptureQueriesContext
    from django.urls import reverse
    from django.utils import timezone

    from assessments import acts
    from assessments.models import Attempt
    from assessments.queries.blueprints import terms_of
    from training.models import Role, Shop, User

    shop = Shop.objects.get()

    def client(role: str) -> tuple[Client, User]:
        user = User.objects.filter(memberships__shop=shop, memberships__role=role).order_by("pk").first()
        assert user is not None
        client = Client(HTTP_HOST="127.0.0.1")
        client.force_login(user, backend="allauth.account.auth_backends.AuthenticationBackend")
        return client, user

    apprentice, learner = client(Role.APPRENTICE)
    owner, _ = client(Role.OWNER)
    terms = terms_of(shop)
    assert terms is not None
    attempt: Attempt = acts.start_assessment(shop=shop, learner=learner, terms=terms, at=timezone.now())
    item = reverse("assessments:item", args=[shop.slug, attempt.form.reference, 3])
    row = next(
        one
        for one in attempt.form.items.order_by("position")
        if one.open["format"] == "one" and len(one.open["options"]) > 2
    )
    save = reverse("assessments:item", args=[shop.slug, attempt.form.reference, row.position])

    def get(client: Client, address: str) -> Callable[[], object]:
        def act() -> object:
            response = client.get(address)
            assert response.status_code == 200, (address, response.status_code)
            return response

        return act

    turn = 0

    def keep() -> object:
        nonlocal turn
        response = apprentice.post(save, {"answer": str(turn % 2 + 1), "revision": str(turn)})
        turn += 1
        assert response.status_code == 302, (response.status_code, response.content[-800:])
        return response

    print("pages (CPU a request)")
    yardstick = cpu(get(apprentice, "/bare/"), times=200)
    line("  bare view, three trivial queries", yardstick)
    for name, act in (
        ("Bay", get(apprentice, reverse("certificates:bay", args=[shop.slug]))),
        ("question", get(apprentice, item)),
        ("Roster", get(owner, reverse("certificates:roster", args=[shop.slug]))),
    ):
        with CaptureQueriesContext(connection) as queries:
            act()
        count = len(queries)  # before the next request forgets them
        line(
            f"  {name}",
            cpu(act, times=40),
            yardstick,
            aim="aim at most 10 x",
            note=f"{count} queries (aim at most 12)",
        )
    with CaptureQueriesContext(connection) as queries:
        keep()
    count = len(queries)
    line("  saving an answer", cpu(keep, times=100), yardstick, aim="aim at most 3 x", note=f"{count} queries")


def rulebook_and_items() -> None:
    """Decisions and questions."""
    import json

    from assessments.questions import blueprint, draw, draw_form
    from assessments.questions.diagnosis.diagnosis import diagnose
    from assessments.questions.draws.coverage import families_of
    from tests.simulations.learners import the_key
    from training.rulebook import decide, load_edition, parse_case

    case = {
        "edition": "north-america",
        "on": "2026-11-25",
        "purpose": "repair",
        "tire": {
            "casing": "passenger",
            "designation": "205/55R16 91V",
            "outer_groove": "62 mm",
            "crown_thickness": "13 mm",
        },
        "injuries": [
            {
                "id": "A",
                "kind": "puncture",
                "diameter": "5 mm",
                "angle": "12 deg",
                "azimuth": "0 deg",
                "lateral": "20 mm",
            }
        ],
        "findings": {"ozone-cracking": False, "bulge": False, "exposed-cord": False},
    }
    text = json.dumps(case)
    print("rulebook and questions (CPU)")
    parse = cpu(lambda: json.loads(text), times=2000)
    line("  json.loads of a case", parse)
    deciding = cpu(lambda: decide(parse_case(json.loads(text))), times=500)
    line("  parse and decide the same case", deciding, parse, aim="aim 150 us")
    edition = load_edition("north-america")
    print("  questions with key, rivals, drawing and explanation, against one decision")
    count = 0

    def drawing(name: str) -> Callable[[], object]:
        def act() -> object:
            nonlocal count
            count += 1
            return draw(name, seed=f"bench {count}", edition=edition)

        return act

    each = {name: cpu(drawing(name), times=40, rounds=3) for name in families_of(edition)}
    mean = sum(each.values()) / len(each)
    line("  one question, mean over families", mean, deciding, aim="aim 500 us", note=f"{1 / mean:.0f} a second")
    for name, seconds in sorted(each.items(), key=lambda one: -one[1])[:5]:
        line(f"    slowest: {name}", seconds, deciding, aim="at most 2000 us")

    def form() -> object:
        nonlocal count
        count += 1
        return draw_form(blueprint("north-america-light"), secret=b"bench", form_id=str(count), edition=edition)

    line("  a form with its drawings", cpu(form, times=4), deciding, aim="at most 225 ms")
    items = form()
    assert isinstance(items, list)
    told = [(item, the_key(item)) for item in items]
    line("  what the answers of a form say", cpu(lambda: diagnose(told), times=4), deciding)


def certificate() -> None:
    """One certificate against a bare canvas."""
    import segno
    from reportlab.lib.pagesizes import A4
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    from certificates.documents.certificate import certificate_pdf
    from certificates.documents.fonts import FOLDER
    from tests.documents.records import a_record

    record = a_record()
    pdfmetrics.registerFont(TTFont("Bare", str(FOLDER / "Barlow-Regular.ttf")))

    def bare() -> object:
        out = io.BytesIO()
        canvas = Canvas(out, pagesize=A4, invariant=1)
        canvas.setFont("Bare", 20)
        canvas.drawString(72, 700, "One line")
        for row, modules in enumerate(segno.make(record.address.upper(), error="q", boost_error=False).matrix):
            for column, is_black in enumerate(modules):
                if is_black:
                    canvas.rect(72 + 3 * column, 300 - 3 * row, 3, 3, stroke=0, fill=1)
        canvas.save()
        return out.getvalue()

    print("certificate (CPU)")
    yardstick = cpu(bare, times=20)
    line("  bare canvas, one font, QR code", yardstick)
    line("  certificate PDF", cpu(lambda: certificate_pdf(record), times=20), yardstick, aim="aim at most 3 x")


if __name__ == "__main__":
    main()
