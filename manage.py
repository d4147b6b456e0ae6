#!/usr/bin/env python3
"""Runs the site's commands: `manage.py demo` on the demo's own settings, all others on the site's."""

import os
import sys


def main() -> None:
    settings = "settings_demo" if sys.argv[1:2] == ["demo"] else "settings"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", f"training.config.{settings}")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
