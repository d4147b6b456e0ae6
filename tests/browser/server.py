"""A demo site of its own for browser tests: a fresh folder, a fresh database, a real server process."""

import json
import os
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.request
from collections.abc import Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]


def free_port() -> int:
    with socket.socket() as sock:
        sock.bind(("127.0.0.1", 0))
        return int(sock.getsockname()[1])


class Site:
    """`manage.py demo` in a process group of its own, so that it can be killed like a machine that lost its power."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.port = free_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self.log = folder / "console.txt"
        self.process: subprocess.Popen[bytes] | None = None

    def _environment(self) -> dict[str, str]:
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("DJANGO_", "SOUND_CASING_"))}
        return kept | {
            "SOUND_CASING_DEMO": str(self.folder),
            "SOUND_CASING_ADDRESS": self.address,
            "PYTHONUNBUFFERED": "1",
        }

    def prepare(self) -> None:
        """Fill the folder, which takes far longer than copying it."""
        command = [sys.executable, "manage.py", "demo", "--prepare"]
        subprocess.run(command, cwd=ROOT, env=self._environment(), check=True, capture_output=True)

    def start(self) -> None:
        console = self.log.open("ab")
        self.process = subprocess.Popen(
            [sys.executable, "manage.py", "demo", "--port", str(self.port)],
            cwd=ROOT,
            env=self._environment(),
            stdout=console,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
        deadline = time.monotonic() + 90
        while time.monotonic() < deadline:
            try:
                with urllib.request.urlopen(f"{self.address}/accounts/login/", timeout=5):
                    return
            except OSError:
                if self.process.poll() is not None:
                    break
                time.sleep(0.2)
        raise RuntimeError(f"the demo did not start:\n{self.console()}")

    def kill(self, sig: int = signal.SIGKILL) -> None:
        if self.process is not None:
            os.killpg(self.process.pid, sig)
            self.process.wait(timeout=30)
            self.process = None

    def console(self) -> str:
        return self.log.read_text(encoding="utf-8", errors="replace") if self.log.exists() else ""

    def rows(self, query: str, values: Sequence[Any] = ()) -> list[sqlite3.Row]:
        """Read the site's database beside the running server."""
        with sqlite3.connect(self.folder / "sound-casing.sqlite3", timeout=20) as connection:
            connection.row_factory = sqlite3.Row
            return connection.execute(query, values).fetchall()

    def items_of(self, reference: str) -> dict[int, dict[str, Any]]:
        """The stored items of a form by position, keys included: what only the server knows."""
        rows = self.rows(
            "select position, snapshot from assessments_formitem i join assessments_form f on f.id = i.form_id"
            " where f.reference = ?",
            [reference.replace("-", "")],
        )
        return {row["position"]: json.loads(row["snapshot"])["content"] for row in rows}
