"""Opens a shop and invites its owner; safe to run again."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from training import acts
from training.rulebook import RulebookError, edition_names


class Command(BaseCommand):
    help = (
        "Opens a shop and sends its owner an invitation link, which is printed too. "
        "Run again, it sends a new link until the owner has joined, and then changes nothing."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--name", required=True, help="name of the shop, as it is printed on certificates")
        parser.add_argument("--owner-email", required=True, help="the owner's mail address")
        parser.add_argument("--owner-name", required=True, help="the owner's name")
        parser.add_argument("--edition", default="", help=f"its rulebook: {' or '.join(edition_names())}")
        parser.add_argument("--units", default="", help='unit printed first, "in" or "mm"; by default the rulebook\'s')
        parser.add_argument("--time-zone", default="UTC", help="for example America/Denver")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            opened = acts.open_shop(
                name=options["name"].strip(),
                owner_email=options["owner_email"],
                owner_name=options["owner_name"],
                edition=options["edition"],
                units=options["units"],
                time_zone=options["time_zone"],
                at=timezone.now(),
            )
        except (acts.ShopRefused, RulebookError) as refusal:
            raise CommandError(str(refusal), returncode=2) from None
        if opened.invited is None:
            self.stdout.write(f"{opened.shop.name} is open and has an owner; nothing was changed.")
            return
        invited = opened.invited
        if invited.problem:
            self.stderr.write(invited.problem)
        standing = "opened" if opened.is_new else "was opened before, without an owner so far"
        invitation = invited.invitation
        self.stdout.write(f"{opened.shop.name} {standing}.")
        self.stdout.write(f"Link for {invitation.email}, until {invitation.expires_at:%Y-%m-%d %H:%M} UTC:")
        self.stdout.write(invited.link)
