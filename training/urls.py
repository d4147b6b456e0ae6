"""Addresses of people, the course and Check a tire."""

from django.urls import path

from training.views import audit, check_a_tire, join, kept_checks, learning, measured, people, rulebook, rules, shop

app_name = "training"
urlpatterns = [
    path("join/<str:secret>/", join.join, name="join"),
    path("shop/<slug:shop>/people/", people.people, name="people"),
    path("shop/<slug:shop>/people/invite/", people.invite, name="invite"),
    path("shop/<slug:shop>/invitations/<uuid:reference>/again/", people.again, name="invitation_again"),
    path("shop/<slug:shop>/invitations/<uuid:reference>/withdraw/", people.withdraw, name="invitation_withdraw"),
    path("shop/<slug:shop>/people/<uuid:person>/roles/", people.roles, name="roles"),
    path("shop/<slug:shop>/people/<uuid:person>/roles/give/", people.role_give, name="role_give"),
    path("shop/<slug:shop>/people/<uuid:person>/roles/end/", people.role_end, name="role_end"),
    path("shop/<slug:shop>/assign/", learning.assign, name="assign"),
    path("shop/<slug:shop>/assignments/<uuid:reference>/withdraw/", learning.withdraw, name="assignment_withdraw"),
    path("shop/<slug:shop>/notices/<uuid:reference>/put-away/", learning.put_away, name="notice_put_away"),
    path("shop/<slug:shop>/course/", learning.course_page, name="course"),
    path("shop/<slug:shop>/course/<slug:module>/", learning.module_page, name="module"),
    path("shop/<slug:shop>/course/pictures/<slug:picture>/", learning.lesson_picture, name="lesson_picture"),
    path("shop/<slug:shop>/course/<slug:module>/<slug:lesson>/", learning.lesson_page, name="lesson"),
    path("shop/<slug:shop>/course/<slug:module>/<slug:lesson>/read/", learning.lesson_read, name="lesson_read"),
    path("shop/<slug:shop>/check/", check_a_tire.check, name="check"),
    path("shop/<slug:shop>/audit/", audit.audit, name="audit"),
    path("read/", measured.read_typed, name="read_typed"),
    path("check/<slug:shop>/", check_a_tire.check_public, name="check_public"),
    path("shop/<slug:shop>/checks/", kept_checks.checks, name="checks"),
    path("shop/<slug:shop>/checks/keep/", kept_checks.check_keep, name="check_keep"),
    path("shop/<slug:shop>/checks/<uuid:reference>/", kept_checks.check_record, name="check_record"),
    path("shop/<slug:shop>/checks/<uuid:reference>/statement/", kept_checks.check_statement, name="check_statement"),
    path("shop/<slug:shop>/settings/", shop.settings, name="shop_settings"),
    path("shop/<slug:shop>/rulebook/", rulebook.from_memory, name="from_memory"),
    path("shop/<slug:shop>/house-rules/", rules.house_rules, name="house_rules"),
    path("shop/<slug:shop>/house-rules/file/", rules.house_rules_import, name="house_rules_import"),
    path("shop/<slug:shop>/house-rules/set/", rules.house_rules_set, name="house_rules_set"),
    path("shop/<slug:shop>/house-rules/<int:number>/", rules.house_rules_version, name="house_rules_version"),
    path("shop/<slug:shop>/repair-units/", rules.units, name="units"),
    path("shop/<slug:shop>/repair-units/add/", rules.unit_add, name="unit_add"),
    path("shop/<slug:shop>/repair-units/<uuid:reference>/take-off/", rules.unit_end, name="unit_end"),
]
