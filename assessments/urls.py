"""Addresses of practice and assessments. They hold a random reference and a position, nothing that tells an answer."""

from django.urls import path

from assessments.views import assessment, practice, rounds

app_name = "assessments"
urlpatterns = [
    path("shop/<slug:shop>/practice/", practice.practice, name="practice"),
    path("shop/<slug:shop>/practice/start/", practice.start, name="practice_start"),
    path("shop/<slug:shop>/practice/<uuid:reference>/<int:position>/", practice.item, name="practice_item"),
    path("shop/<slug:shop>/practice/<uuid:reference>/end/", practice.end, name="practice_end"),
    path("shop/<slug:shop>/assessment/", assessment.assessment, name="assessment"),
    path("shop/<slug:shop>/assessment/start/", assessment.start, name="assessment_start"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/<int:position>/", assessment.item, name="item"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/clock/", assessment.clock, name="clock"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/review/", assessment.review, name="review"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/hand-in/", assessment.hand_in, name="hand_in"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/result/", assessment.result, name="result"),
    path("shop/<slug:shop>/people/<uuid:person>/new-round/", rounds.extra_round, name="extra_round"),
]
