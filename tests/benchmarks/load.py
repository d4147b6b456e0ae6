"""How long an answer takes to be kept while others are at work, over HTTP: `python -m tests.benchmarks.load`.

The site runs as the README serves it, gunicorn with two workers of four threads, on a folder of its own or on the
database of `--database`, which must be empty. Three phases, each some seconds: one person saving alone; the same beside
eight who practice, three seconds between their answers; thirty-two saving at once, each as fast as answers come.
"""

import argparse
import http.client
import os
import re
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import median, quantiles
from urllib.parse import urlencode

from tests.browser.server import ROOT, free_port

SAVERS, PRACTICING = 32, 8
PAUSE_S, BETWEEN_ANSWERS_S = 0.1, 3.0
WORKERS, THREADS = 2, 4
FORM = {"Content-Type": "application/x-www-form-urlencoded"}


@dataclass
class Person:
    """Somebody logged in: the session, and the addresses of the work before them."""

    session: str
    save: str  # a question with options, of an open assessment
    practice: str  # where practice begins


class Visitor:
    """One browser: keeps its session and its token.

    Each request has a connection of its own, as a proxy makes them: kept ones stay with the worker that took them, and
    in a crowd one worker would have most.
    """

    def __init__(self, port: int, person: Person) -> None:
        self.port = port
        self.cookies = f"shop_session={person.session}"
        self.token = ""

    def ask(
        self, method: str, address: str, fields: dict[str, str] | None = None, **headers: str
    ) -> tuple[int, str, str]:
        """Status, body and where it leads."""
        body = urlencode({"csrfmiddlewaretoken": self.token, **fields}) if fields is not None else None
        sent = {"Cookie": self.cookies, **(FORM if body else {}), **headers}
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        connection.request(method, address, body, {"Connection": "close", **sent})
        answer = connection.getresponse()
        text = answer.read().decode()
        connection.close()
        for cookie in answer.headers.get_all("Set-Cookie") or ():
            if cookie.startswith("csrftoken="):
                self.cookies = re.sub(r"; csrftoken=.*|$", f"; {cookie.split(';')[0]}", self.cookies, count=1)
        if found := re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', text):
            self.token = found[1]
        return answer.status, text, answer.headers.get("Location", "")


@dataclass
class Times:
    """Seconds that each answer took to be kept, and how many were not."""

    seconds: list[float]
    errors: int = 0

    def at(self, percent: int) -> float:
        """A percentile."""
        return quantiles(self.seconds, n=100, method="inclusive")[percent - 1]


def saving(port: int, person: Person, until: float, pause_s: float, times: Times) -> None:
    """Change one answer again and again, as the page does when a choice changes."""
    browser = Visitor(port, person)
    _, page, _ = browser.ask("GET", person.save)
    turn = 0
    while time.monotonic() < until:
        found = re.search(r'name="revision" value="(\d+)"', page)
        fields = {"answer": str(turn % 2 + 1), "revision": found[1] if found else "0", "go": "stay"}
        start = time.perf_counter()
        status, page, _ = browser.ask("POST", person.save, fields, **{"HX-Request": "true", "HX-Target": "saved"})
        times.seconds.append(time.perf_counter() - start)
        if status != 200 or "Answer saved" not in page:
            times.errors += 1
            _, page, _ = browser.ask("GET", person.save)
        turn += 1
        time.sleep(pause_s)


def practicing(port: int, person: Person, until: float, times: Times) -> None:
    """Ask for one explanation after another, which has the next question chosen; begin again at the end."""
    browser, place = Visitor(port, person), ""
    browser.ask("GET", person.practice)
    while time.monotonic() < until:
        start = time.perf_counter()
        if not place:
            status, _, place = browser.ask("POST", f"{person.practice}start/", {"skill": ""})
        else:
            status, _, _ = browser.ask("POST", place, {"go": "explain"})
            number = int(place.rstrip("/").rsplit("/", 1)[1])
            place = "" if number == 8 else re.sub(r"\d+/$", f"{number + 1}/", place)
        times.seconds.append(time.perf_counter() - start)
        times.errors += status != 302
        if place:
            browser.ask("GET", place)
        time.sleep(BETWEEN_ANSWERS_S)


def together(acts: Sequence[Callable[[], None]]) -> None:
    """Do all of these at once, and wait for the last."""
    threads = [threading.Thread(target=act) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def run(port: int, people: Sequence[Person], seconds: float) -> dict[str, Times]:
    """The three phases, one after another."""
    found = {name: Times([]) for name in ("alone", "beside", "practicing", "crowd")}
    until = time.monotonic() + seconds
    saving(port, people[0], until, PAUSE_S, found["alone"])
    until = time.monotonic() + seconds
    others = people[1 : PRACTICING + 1]
    together(
        [partial(saving, port, people[0], until, PAUSE_S, found["beside"])]
        + [partial(practicing, port, one, until, found["practicing"]) for one in others]
    )
    until = time.monotonic() + seconds
    together([partial(saving, port, one, until, 0.0, found["crowd"]) for one in people[:SAVERS]])
    return found


def prepared() -> list[Person]:
    """A shop with people who have an open assessment and have practiced before; in the database of the environment."""
    import django

    django.setup()
    from django.core.management import call_command
    from django.test import Client
    from django.urls import reverse
    from django.utils import timezone

    from assessments import acts
    from assessments.models import FormItem
    from assessments.queries import terms_of
    from assessments.questions import Item, canonical, right_answer
    from training.models import Membership, Role, Shop, User

    call_command("migrate", verbosity=0, interactive=False)
    call_command("collectstatic", verbosity=0, interactive=False)
    shop = Shop.objects.create(slug="load", name="Load")
    terms = terms_of(shop)
    assert terms is not None
    people = []
    for number in range(SAVERS):
        user = User.objects.create_user(f"person{number}@load.example", None, name=f"Person {number}")
        Membership.objects.create(shop=shop, user=user, role=Role.APPRENTICE, since_at=timezone.now())
        attempt = acts.start_assessment(shop=shop, learner=user, terms=terms, at=timezone.now())
        row = next(
            one for one in attempt.form.items.all() if one.open["format"] == "one" and len(one.open["options"]) > 2
        )
        if number <= PRACTICING:
            practice = acts.start_practice(shop=shop, learner=user, skill="position", at=timezone.now())
            for position in range(1, 9):
                item = Item.from_json(FormItem.objects.get(form=practice.form, position=position).snapshot)
                answer = canonical(right_answer(item))
                acts.answer_practice(attempt=practice, position=position, answer=answer, at=timezone.now())
        browser = Client()
        browser.force_login(user, backend="allauth.account.auth_backends.AuthenticationBackend")
        people.append(
            Person(
                session=browser.cookies["shop_session"].value,
                save=reverse("assessments:item", args=[shop.slug, attempt.form.reference, row.position]),
                practice=reverse("assessments:practice", args=[shop.slug]),
            )
        )
    from django.db import connections

    connections.close_all()
    return people


@contextmanager
def served() -> Iterator[int]:
    """The site on a free port, until the end."""
    port = free_port()
    address = ["--bind", f"127.0.0.1:{port}", "--workers", str(WORKERS), "--threads", str(THREADS)]
    command = [sys.executable, "-m", "gunicorn", "training.config.wsgi", "--log-level", "warning", *address]
    site = subprocess.Popen(command, cwd=ROOT)
    try:
        deadline = time.monotonic() + 60
        while time.monotonic() < deadline:
            try:
                asked = http.client.HTTPConnection("127.0.0.1", port, timeout=5)
                asked.request("GET", "/accounts/login/")
                asked.getresponse().read()
                break
            except OSError:
                time.sleep(0.2)
        yield port
    finally:
        site.terminate()
        site.wait(timeout=30)


def shown(times: Times) -> str:
    """Percentiles in ms."""
    ms = [1000 * times.at(percent) for percent in (50, 90, 99)]
    return f"p50 {ms[0]:7.1f}  p90 {ms[1]:7.1f}  p99 {ms[2]:7.1f} ms   {len(times.seconds):5}, {times.errors} errors"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--database", default="", help="postgres://... of an empty database; default SQLite")
    parser.add_argument("--runs", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=20.0, help="of each phase")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        os.environ.update(
            SOUND_CASING_DATA=folder,
            SOUND_CASING_STATIC=str(Path(folder) / "static"),
            DJANGO_SETTINGS_MODULE="training.config.settings",
        )
        os.environ.pop("DATABASE_URL", None)
        if given.database:
            os.environ["DATABASE_URL"] = given.database
        people = prepared()
        beside, crowd, errors = [], [], 0
        with served() as port:
            run(port, people, 3)  # what each worker does only once
            for _ in range(given.runs):
                found = run(port, people, given.seconds)
                for name, times in found.items():
                    print(f"  {name:12} {shown(times)}", flush=True)
                beside.append(found["beside"].at(90) / found["alone"].at(90))
                crowd.append(found["crowd"].at(99) / found["crowd"].at(50))
                errors += sum(times.errors for times in found.values())
    print(f"saving beside {PRACTICING} who practice, p90 against alone: {median(beside):.2f} (aim at most 3)")
    print(f"{SAVERS} saving at once, p99 against p50: {median(crowd):.2f} (aim at most 3)")
    print(f"errors: {errors} (aim 0)")


if __name__ == "__main__":
    main()
