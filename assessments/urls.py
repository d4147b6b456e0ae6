"""Addresses of practice and assessments. They hold a random reference and a position, nothing that tells an answer."""

from django.urls import path

from assessments.views import asked, assessment, bench, kept, practice, rounds

app_name = "assessments"
urlpatterns = [
    path("shop/<slug:shop>/practice/", practice.practice, name="practice"),
    path("shop/<slug:shop>/practice/start/", practice.start, name="practice_start"),
    path("shop/<slug:shop>/practice/<uuid:reference>/<int:position>/", practice.item, name="practice_item"),
    path(
        "shop/<slug:shop>/practice/<uuid:reference>/<int:position>/picture/<int:number>/",
        practice.picture,
        name="practice_picture",
    ),
    path("shop/<slug:shop>/practice/<uuid:reference>/<int:position>/flag/", asked.practice_flag, name="practice_flag"),
    path("shop/<slug:shop>/practice/<uuid:reference>/taught/", practice.taught, name="practice_taught"),
    path("shop/<slug:shop>/practice/<uuid:reference>/end/", practice.end, name="practice_end"),
    path("shop/<slug:shop>/assessment/", assessment.assessments, name="assessments"),
    path("shop/<slug:shop>/assessment/<slug:scope>/", assessment.assessment, name="assessment"),
    path("shop/<slug:shop>/assessment/<slug:scope>/start/", assessment.start, name="assessment_start"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/<int:position>/", assessment.item, name="item"),
    path(
        "shop/<slug:shop>/assessment/<uuid:reference>/<int:position>/picture/<int:number>/",
        assessment.picture,
        name="picture",
    ),
    path("shop/<slug:shop>/assessment/<uuid:reference>/<int:position>/keep/", kept.keep, name="keep"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/clock/", assessment.clock, name="clock"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/review/", assessment.review, name="review"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/hand-in/", assessment.hand_in, name="hand_in"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/result/", assessment.result, name="result"),
    path("shop/<slug:shop>/assessment/<uuid:reference>/flag/", asked.result_flag, name="result_flag"),
    path("shop/<slug:shop>/asked/<uuid:reference>/", asked.asked, name="asked"),
    path("shop/<slug:shop>/asked/<uuid:reference>/<int:position>/", asked.question, name="asked_question"),
    path(
        "shop/<slug:shop>/asked/<uuid:reference>/<int:position>/picture/<int:number>/",
        asked.picture,
        name="asked_picture",
    ),
    path("shop/<slug:shop>/asked/<uuid:reference>/<int:position>/withdraw/", asked.withdraw, name="asked_withdraw"),
    path("shop/<slug:shop>/asked/<uuid:reference>/<int:position>/take-back/", asked.take_back, name="asked_take_back"),
    path("shop/<slug:shop>/people/<uuid:person>/new-round/<slug:scope>/", rounds.extra_round, name="extra_round"),
    path("shop/<slug:shop>/bench/", bench.bench, name="bench"),
    path("shop/<slug:shop>/bench/flags/<uuid:reference>/settle/", bench.bench_settle, name="bench_settle"),
    path("shop/<slug:shop>/bench/<slug:name>/", bench.bench_family, name="bench_family"),
    path("shop/<slug:shop>/bench/<slug:name>/draw/", bench.bench_draw, name="bench_draw"),
    path("shop/<slug:shop>/bench/<slug:name>/picture/<int:number>/", bench.bench_picture, name="bench_picture"),
    path("shop/<slug:shop>/bench/<slug:name>/off/", bench.bench_off, name="bench_off"),
    path("shop/<slug:shop>/bench/<slug:name>/on/", bench.bench_on, name="bench_on"),
]
