"""The course: what there is, what was asked, what is read."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone

from training import acts, course, queries
from training.access import Place, shop_page
from training.course import UnknownLesson
from training.forms.learning import AssignForm
from training.models import Role
from training.pictures import Photographed
from training.trade.speech import say, saying

PICTURE_DAYS = 30  # how long a browser keeps a picture of a lesson


@shop_page()
def course_page(request: HttpRequest, place: Place) -> HttpResponse:
    """All modules and lessons, and where to go on."""
    modules = queries.course_of(place.shop, place.person, place.day(timezone.now()))
    onward, all_read = queries.next_lesson_in(modules), all(one.is_done for one in modules)
    return render(request, "training/course.html", {"modules": modules, "onward": onward, "all_read": all_read})


@shop_page()
def module_page(request: HttpRequest, place: Place, module: str) -> HttpResponse:
    """One module with its lessons."""
    modules = queries.course_of(place.shop, place.person, place.day(timezone.now()))
    found = next((one for one in modules if one.module.slug == module), None)
    if found is None:
        raise Http404
    return render(request, "training/module.html", {"progress": found})


@shop_page()
def lesson_page(request: HttpRequest, place: Place, module: str, lesson: str) -> HttpResponse:
    """One lesson, its limits printed from the shop's rulebook."""
    shown = _lesson(module, lesson)
    modules = queries.course_of(place.shop, place.person, place.day(timezone.now()))
    flat = [(one.module, read, one.is_for_shop) for one in modules for read in one.lessons]
    at = next(i for i, (part, read, _) in enumerate(flat) if part.slug == module and read.lesson.slug == lesson)
    rendered = course.render(
        shown,
        edition=place.edition,
        prefer=place.shop.units,
        photographs=_photographs(place) if any(one.kind == "picture" for one in shown.blocks) else (),
    )
    context = {
        "module": flat[at][0],
        "lesson": shown,
        "read": flat[at][1],
        "is_practiced": flat[at][2],
        "lessons": next(one.lessons for one in modules if one.module.slug == module),
        "number": [one.slug for one in flat[at][0].lessons].index(lesson) + 1,
        "before": flat[at - 1] if at else None,
        "after": flat[at + 1] if at + 1 < len(flat) else None,
        "rendered": rendered,
        "page": rendered.moved(request.GET.dict()) if request.GET else rendered.page,
        "edition": place.edition,
        "shown_at": timezone.now(),
    }
    return render(request, "training/lesson.html", context)


@shop_page()
def lesson_moved(request: HttpRequest, place: Place, module: str, lesson: str) -> HttpResponse:
    """What a reader moved in a lesson that is open: its drawing, what the rulebook says, and where that turns."""
    rendered = course.render(_lesson(module, lesson), edition=place.edition, prefer=place.shop.units)
    if rendered.movable is None:
        raise Http404
    return HttpResponse(rendered.exchanged(request.GET.dict()))


@shop_page()
def lesson_picture(request: HttpRequest, place: Place, picture: str) -> HttpResponse:
    """A picture that a lesson prints; it stays the same for as long as a browser keeps it."""
    shown = course.printed_pictures().get(picture)
    if shown is None:
        raise Http404
    response = HttpResponse(queries.picture_file(shown.parameters), content_type="image/webp")
    response.headers["Cache-Control"] = f"private, max-age={PICTURE_DAYS * 24 * 3600}"
    return response


@shop_page(methods="POST")
def lesson_read(request: HttpRequest, place: Place, module: str, lesson: str) -> HttpResponse:
    """Keep that the lesson was read, and go on to the next one."""
    shown = _lesson(module, lesson)
    acts.mark_lesson_read(
        shop=place.shop,
        learner=place.person,
        module=module,
        lesson=lesson,
        content_version=course.render(shown, edition=place.edition, prefer=place.shop.units).content_version,
        at=timezone.now(),
    )
    messages.success(request, say("Marked as read: {lesson}.", lesson=shown.title))
    lessons = course.module(module).lessons
    place_in = [one.slug for one in lessons].index(lesson)
    if place_in + 1 < len(lessons):
        return redirect("training:lesson", place.shop.slug, module, lessons[place_in + 1].slug)
    return redirect("training:module", place.shop.slug, module)


@shop_page(Role.TRAINER, Role.OWNER, methods="GET HEAD POST", while_sitting=True)
def assign(request: HttpRequest, place: Place) -> HttpResponse:
    """Ask learners to finish modules by a day, and see what stands asked."""
    now = timezone.now()
    today = place.day(now)
    progress = queries.progress_of_shop(place.shop, today)
    chosen = {"learners": request.GET.getlist("learner"), "modules": request.GET.getlist("module")}
    form = AssignForm(request.POST or None, people=[one.person for one in progress], today=today, initial=chosen)
    if form.is_valid():
        try:
            assigned = acts.assign(shop=place.shop, assigned_by=place.person, at=now, **form.cleaned_data)
        except acts.AssignmentRefused as refusal:  # the day ended between the page and the press
            form.add_error("due_date", say("Finish by: {problem}", problem=refusal))
        else:
            for change, words in _WHAT_HAPPENED:
                lines = [f"{one.assignment.learner.name}: {one.title}" for one in assigned if one.change == change]
                if lines:
                    messages.success(request, f"{words} {'; '.join(lines)}.")
            return redirect("training:assign", place.shop.slug)
    context = {"form": form, "progress": [one for one in progress if one.assigned], "has_learners": bool(progress)}
    return render(request, "training/assign.html", context)


@shop_page(Role.TRAINER, Role.OWNER, methods="POST", while_sitting=True)
def withdraw(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Take back what was asked."""
    asked = get_object_or_404(queries.assignments_in(place.shop), reference=reference)
    acts.withdraw_assignment(assignment=asked, at=timezone.now())
    messages.success(
        request,
        say("Assignment withdrawn: {module}, {learner}.", module=_title(asked.module), learner=asked.learner.name),
    )
    return redirect("training:assign", place.shop.slug)


@shop_page(methods="POST", while_sitting=True)
def put_away(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Take a line off one's own start page."""
    notice = get_object_or_404(queries.own_notices(place.shop, place.person), reference=reference)
    acts.put_away_notice(notice=notice, at=timezone.now())
    return redirect("/")


_WHAT_HAPPENED = (
    ("new", saying("Assigned.")),
    ("moved", saying("Already assigned; the due date is now the new one.")),
    ("same", saying("Already assigned with this due date; nothing changed.")),
)


def _photographs(place: Place) -> tuple[Photographed, ...]:
    """The photographs of the shop that a second trainer has confirmed, the newest first; one query."""
    rows = queries.standing_photographs(place.shop).filter(confirmed_at__isnull=False)
    return tuple(
        Photographed(
            condition, look_alike, casing, reverse("training:photograph_picture", args=[place.shop.slug, reference])
        )
        for reference, condition, look_alike, casing in rows.values_list(
            "reference", "condition", "look_alike", "casing"
        )
    )


def _lesson(module: str, lesson: str) -> course.Lesson:
    try:
        return course.lesson(module, lesson)
    except UnknownLesson:
        raise Http404 from None


def _title(module: str) -> str:
    try:
        return course.module(module).title
    except UnknownLesson:  # an old assignment of a module that the course has no more
        return module
