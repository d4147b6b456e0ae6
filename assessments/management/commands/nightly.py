"""`manage.py nightly`: the work of the night, for cron. Safe to run at any hour and again."""

from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.utils import timezone

from assessments import acts
from training.acts import clear_photograph_drafts


class Command(BaseCommand):
    """Hands in assessments whose clock ran out while nobody looked, and clears sessions that have expired and
    photographs that were brought and not kept."""

    help = "Hand in assessments whose clock ran out; clear expired sessions and photographs that were not kept."

    def handle(self, *args: Any, **options: Any) -> None:
        call_command("clearsessions")
        now = timezone.now()
        clear_photograph_drafts(at=now)
        count = acts.close_overdue(at=now)
        self.stdout.write(f"Handed in: {count} assessment{'' if count == 1 else 's'} whose clock had run out.")
