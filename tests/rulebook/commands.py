"""Runs a command that reads a file, as the shell does."""

import io

import pytest
from django.core.management import call_command


def answer_of(command: str, monkeypatch: pytest.MonkeyPatch, text: str | bytes, *options: str) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of `COMMAND - ...` reading this text."""
    data = text.encode() if isinstance(text, str) else text
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(data)))
    out, err = io.StringIO(), io.StringIO()
    try:
        call_command(command, "-", *options, stdout=out, stderr=err)
    except SystemExit as stop:
        return int(stop.code or 0), out.getvalue(), err.getvalue()
    return 0, out.getvalue(), err.getvalue()
