"""The demo: made in its own folder, the same when it is made again, and never in a database that is not its own."""

import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from certificates.management.commands.demo import Command
from tests.speaking import OPEN, bracketed

ROOT = Path(__file__).resolve().parents[2]
DATABASE = "sound-casing.sqlite3"


def prepare(folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("DJANGO_", "SOUND_CASING_"))}
    return subprocess.run(
        [sys.executable, "manage.py", "demo", "--prepare"],
        cwd=ROOT,
        env=kept | {"SOUND_CASING_DEMO": str(folder)} | more,
        capture_output=True,
        text=True,
        check=False,
    )


def rows(folder: Path) -> dict[str, int]:
    with sqlite3.connect(folder / DATABASE) as database:
        tables = [name for (name,) in database.execute("select name from sqlite_master where type = 'table'")]
        return {name: database.execute(f'select count(*) from "{name}"').fetchone()[0] for name in tables}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a demo, made once while another database is named in the environment."""
    folder = tmp_path_factory.mktemp("demo")
    made = prepare(folder / "made", DATABASE_URL=f"sqlite:///{folder / 'elsewhere.sqlite3'}")
    assert made.returncode == 0, made.stderr
    assert not (folder / "elsewhere.sqlite3").exists()
    return folder / "made"


def test_the_demo_is_made_once_and_stays_as_it_is(demo: Path) -> None:
    made = rows(demo)
    again = prepare(demo)

    assert again.returncode == 0, again.stderr
    assert rows(demo) == made
    assert made["certificates_certificate"] == 3  # one person for light tires, one for both


def test_a_database_that_is_not_the_demos_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / DATABASE) as database:
        database.execute("create table tires_of_somebody (id integer)")
    before = (tmp_path / DATABASE).read_bytes()

    refused = prepare(tmp_path)

    assert refused.returncode != 0
    assert 'holds the table "tires_of_somebody", which is not the demo\'s' in refused.stderr
    assert (tmp_path / DATABASE).read_bytes() == before


def test_a_shop_that_is_not_the_demos_is_refused(demo: Path, tmp_path: Path) -> None:
    shutil.copytree(demo, tmp_path / "real")
    with sqlite3.connect(tmp_path / "real" / DATABASE) as database:
        database.execute("update training_shop set slug = 'a-real-shop'")

    refused = prepare(tmp_path / "real")

    assert refused.returncode != 0
    assert 'holds the shop "a-real-shop", which is not the demo\'s' in refused.stderr


def test_a_practice_of_the_demo_is_answered_to_its_end(demo: Path) -> None:
    with sqlite3.connect(demo / DATABASE) as database:
        open_ones = database.execute(
            "select count(*) from assessments_attempt a where a.closes_at is null and a.handed_in_at is null"
        ).fetchone()[0]
        answers = database.execute(
            "select min(answers) from (select count(*) as answers from assessments_response r"
            " join assessments_attempt a on a.id = r.attempt_id"
            " where a.closes_at is null group by a.id)"
        ).fetchone()[0]

    assert open_ones == 0
    assert answers > 1


def test_the_help_of_the_command_is_said_in_the_language_spoken() -> None:
    with bracketed():
        told = Command().create_parser("manage.py", "demo").format_help()

    for words in ("prepare the database, do not serve", "server processes"):
        assert f"{OPEN}{words}" in " ".join(told.split())
