"""A trainer gives a learner a new round of attempts."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone

from assessments import acts, queries
from assessments.forms.rounds import ExtraRoundForm
from assessments.queries import terms_of
from training.access import Place, shop_page
from training.models import Role, User
from training.trade.speech import say, say_many


@shop_page(Role.TRAINER, Role.OWNER, methods="GET POST", while_sitting=True)
def extra_round(request: HttpRequest, place: Place, person: UUID, scope: str) -> HttpResponse:
    """Why a new round of a scope's assessment; then it is open."""
    members = User.objects.filter(memberships__shop=place.shop, memberships__ended_at=None).distinct()
    learner = get_object_or_404(members, reference=person)
    terms = terms_of(place.shop, scope)
    if terms is None:
        raise Http404
    at = timezone.now()
    theory = queries.theory_of(place.shop, learner, terms)
    late = queries.late_of(theory, at)
    form = ExtraRoundForm(request.POST or None, initial={"reason": late.words() if late else ""})
    if request.method == "POST" and form.is_valid():
        try:
            given = acts.give_extra_round(
                shop=place.shop,
                learner=learner,
                terms=terms,
                given_by=place.person,
                reason=form.cleaned_data["reason"],
                at=at,
            )
        except acts.NotNow as refusal:
            form.add_error(None, str(refusal))
        else:
            if given is None:
                messages.warning(
                    request, say("{learner} has attempts left; no new round was needed.", learner=learner.name)
                )
            else:
                messages.success(
                    request,
                    say_many(
                        "New round given: {learner} has {count} attempt.",
                        "New round given: {learner} has {count} attempts.",
                        terms.attempts,
                        learner=learner.name,
                    ),
                )
            return redirect("assessments:extra_round", place.shop.slug, learner.reference, terms.name)
    context = {"learner": learner, "form": form, "theory": theory, "state": theory.state(at).value, "late": late}
    return render(request, "assessments/extra_round.html", context)
