"""`manage.py nightly`: the work of the night, for cron. Safe to run at any hour and again."""

from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.utils import timezone

from assessments import acts


class Command(BaseCommand):
    """Hands in assessments whose clock ran out while nobody looked, and clears sessions that have expired."""

    help = "Hand in assessments whose clock ran out; clear expired sessions."

    def handle(self, *args: Any, **options: Any) -> None:
        call_command("clearsessions")
        count = acts.close_overdue(at=timezone.now())
        self.stdout.write(f"Handed in: {count} assessment{'' if count == 1 else 's'} whose clock had run out.")
