"""Assigning modules."""

from collections.abc import Iterable
from datetime import date
from typing import Any, cast

from django import forms

from training import course
from training.forms.base import PlainForm
from training.forms.fields import choices, day
from training.models import User
from training.trade.speech import say, saying


class AssignForm(PlainForm):
    """Who shall finish what by when. Learners and modules are only those of the shop and of the course."""

    learners = choices(
        saying("Who"),
        empty=saying("nobody is chosen; choose one or several learners."),
        unknown=saying('"%(value)s" is not a learner of this shop; choose from those listed.'),
    )
    modules = choices(
        saying("What"),
        empty=saying("nothing is chosen; choose one or several modules."),
        unknown=saying('"%(value)s" is not a module of the course; choose from those listed.'),
    )
    due_date = day(
        saying("Finish by"),
        empty=saying("no day is given; give one."),
        wrong=saying("this is not a day; give year, month and day, for example 2026-11-25."),
        hint=saying("The day counts to its end in the shop's time zone."),
    )

    def __init__(self, *args: Any, people: Iterable[User], today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.people = {str(person.reference): person for person in people}
        self.today = today
        who = cast(forms.MultipleChoiceField, self.fields["learners"])
        what = cast(forms.MultipleChoiceField, self.fields["modules"])
        who.choices = [(reference, person.name) for reference, person in self.people.items()]
        what.choices = [
            (
                module.slug,
                say(
                    "{module} ({count} lessons, {minutes}\N{NO-BREAK SPACE}min)",
                    module=module.title,
                    count=len(module.lessons),
                    minutes=module.minutes,
                ),
            )
            for module in course.modules()
        ]
        self.fields["due_date"].widget.attrs["min"] = today.isoformat()

    def clean_learners(self) -> list[User]:
        return [self.people[reference] for reference in self.cleaned_data["learners"]]

    def clean_due_date(self) -> date:
        day: date = self.cleaned_data["due_date"]
        if day < self.today:
            raise forms.ValidationError(
                say("Finish by: {day} has gone by; choose {today} or a later day.", day=day, today=self.today)
            )
        return day
