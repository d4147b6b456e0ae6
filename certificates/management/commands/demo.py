"""`manage.py demo`: prepare the demo's own database and serve it; `--prepare` only prepares."""

import os
import socket
import sqlite3
from argparse import ArgumentParser
from contextlib import closing
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connections
from django.utils import timezone

from certificates.management.demo import fill, scenario
from training.config.server import Server
from training.models import Role, Shop
from training.trade.speech import say, saying

STRANGE_TABLE = saying(
    'demo: the database in {folder} holds the table "{name}", which is not the demo\'s. '
    "Nothing was changed; move that folder away and call the demo again."
)
STRANGE_SHOP = saying(
    'demo: the database in {folder} holds the shop "{name}", which is not the demo\'s. '
    "Nothing was changed; move that folder away and call the demo again."
)


def _refuse_another_database(slug: str) -> None:
    """Go no further where the database holds what the demo did not make; it is opened for reading only."""
    path = Path(settings.DATABASES["default"]["NAME"])
    if not path.exists():
        return
    with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as database:
        tables = [name for (name,) in database.execute("select name from sqlite_master where type = 'table'")]
        if Shop._meta.db_table not in tables:
            if tables:
                raise CommandError(say(STRANGE_TABLE, folder=settings.DATA_DIR, name=tables[0]))
            return
        other = database.execute("select slug from training_shop where slug <> ?", [slug]).fetchone()
    if other:
        raise CommandError(say(STRANGE_SHOP, folder=settings.DATA_DIR, name=other[0]))


def _refuse_taken(host: str, port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as problem:
            raise CommandError(
                say(
                    "--port {port}: {problem} on {host}; give a free one, for example --port 8017",
                    port=port,
                    problem=problem.strerror,
                    host=host,
                )
            ) from problem


SCENARIO = Path(settings.BASE_DIR) / "fixtures" / "demo.toml"


class Command(BaseCommand):
    """Safe to run again: what is there stays; no database but the demo's is opened."""

    help = saying("Prepare the demo shop in its own database and serve it.")
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--prepare", action="store_true", help=say("prepare the database, do not serve"))
        parser.add_argument("--host", default="127.0.0.1", help=say("address to listen on (default 127.0.0.1)"))
        parser.add_argument("--port", type=int, default=8000, help=say("port to listen on (default 8000)"))
        parser.add_argument("--workers", type=int, default=2, help=say("server processes (default 2)"))

    def handle(self, *args: Any, prepare: bool, host: str, port: int, workers: int, **options: Any) -> None:
        if not getattr(settings, "IS_DEMO", False):
            raise CommandError(
                say("demo: runs on the demo's own settings only; unset DJANGO_SETTINGS_MODULE and call manage.py demo.")
            )
        told = scenario(SCENARIO)
        self.stdout.write(say("Preparing the demo shop ..."))
        _refuse_another_database(told["shop"]["slug"])
        call_command("migrate", verbosity=0, interactive=False)
        if not Shop.objects.exists():
            fill(told=told, at=timezone.now())
        if prepare:
            self.stdout.write(say("The demo is ready in {folder}.", folder=settings.DATA_DIR))
            return
        _refuse_taken(host, port)
        if "SOUND_CASING_ADDRESS" not in os.environ:
            settings.ADDRESS = f"http://{host}:{port}"  # links in mail and on certificates lead here
        shop, address = told["shop"]["name"], f"http://{host}:{port}/"
        opened = say("{shop} is open at {address}  (Ctrl+C stops it)", shop=shop, address=address)
        self.stdout.write(f"\n{opened}\n\n")
        for role in Role:
            person = next(person for person in told["person"] if role in person["roles"])
            password = say("password {password}", password=told["login"]["password"])
            self.stdout.write(f"  {role.label:10}  {person['email']:32}  {password}\n")
        mail = say("Mail, such as invitations, is printed here. Everybody in this shop is invented.")
        self.stdout.write(f"\n{mail}\n")
        self.stdout.flush()
        connections.close_all()  # a worker must not share a connection that was open before the fork
        Server(host=host, port=port, workers=workers).run()
