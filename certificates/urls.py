"""Addresses of start pages, hands-on records and certificates."""

from django.urls import path

from certificates.views import certificates, hands_on, papers, roster, scopes, start, verify

app_name = "certificates"
urlpatterns = [
    path("", start.home, name="home"),
    path("shop/<slug:shop>/bay/", start.bay, name="bay"),
    path("shop/<slug:shop>/floor/", start.floor, name="floor"),
    path("shop/<slug:shop>/floor/<uuid:person>/", start.person, name="person"),
    path("shop/<slug:shop>/hands-on/<uuid:person>/", hands_on.hands_on, name="hands_on"),
    path("shop/<slug:shop>/hands-on/<uuid:person>/<slug:scope>/", hands_on.hands_on_sheet, name="hands_on_sheet"),
    path("shop/<slug:shop>/hands-on/record/<uuid:reference>/", hands_on.hands_on_record, name="hands_on_record"),
    path("shop/<slug:shop>/people/<uuid:person>/issue/", certificates.issue, name="issue"),
    path("shop/<slug:shop>/certificates/<str:number>/", certificates.certificate, name="certificate"),
    path("shop/<slug:shop>/certificates/<str:number>/pdf/", certificates.certificate_pdf_file, name="certificate_pdf"),
    path(
        "shop/<slug:shop>/certificates/<str:number>/suspend/", certificates.change, {"act": "suspend"}, name="suspend"
    ),
    path(
        "shop/<slug:shop>/certificates/<str:number>/restore/", certificates.change, {"act": "restore"}, name="restore"
    ),
    path("shop/<slug:shop>/certificates/<str:number>/revoke/", certificates.revoke, name="revoke"),
    path("shop/<slug:shop>/people/<uuid:person>/paper/", papers.paper_make, name="paper_make"),
    path("shop/<slug:shop>/people/<uuid:person>/paper/<slug:scope>/", papers.paper_of_scope, name="paper_of_scope"),
    path("shop/<slug:shop>/papers/<uuid:reference>/", papers.paper, name="paper"),
    path("shop/<slug:shop>/papers/<uuid:reference>/pdf/", papers.paper_pdf, name="paper_pdf"),
    path("shop/<slug:shop>/papers/<uuid:reference>/key/", papers.paper_key_pdf, name="paper_key_pdf"),
    path("shop/<slug:shop>/papers/<uuid:reference>/answers/", papers.paper_answers, name="paper_answers"),
    path("shop/<slug:shop>/papers/<uuid:reference>/hand-in/", papers.paper_hand_in, name="paper_hand_in"),
    path("shop/<slug:shop>/papers/<uuid:reference>/withdraw/", papers.paper_withdraw, name="paper_withdraw"),
    path("shop/<slug:shop>/scopes/", scopes.scopes, name="scopes"),
    path("shop/<slug:shop>/roster/", roster.roster, name="roster"),
    path("shop/<slug:shop>/roster/csv/", roster.roster_csv, name="roster_csv"),
    path("c/", verify.lookup, name="verify_lookup"),
    path("c/<str:number>/", verify.verify, name="verify"),
    path("C/<str:number>/", verify.verify),  # the code on paper holds the address in capitals
]
