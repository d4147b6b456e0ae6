"""Every address of the site. Pages of a shop live under /shop/<shop>/; accounts and checks of a certificate do not."""

from allauth.account import views as account
from django.urls import include, path, re_path

urlpatterns = [
    path("accounts/login/", account.login, name="account_login"),
    path("accounts/logout/", account.logout, name="account_logout"),
    path("accounts/inactive/", account.account_inactive, name="account_inactive"),
    path("accounts/password/", account.password_change, name="account_change_password"),
    path("accounts/password/forgotten/", account.password_reset, name="account_reset_password"),
    path("accounts/password/sent/", account.password_reset_done, name="account_reset_password_done"),
    path(
        "accounts/password/new/done/",
        account.password_reset_from_key_done,
        name="account_reset_password_from_key_done",
    ),
    re_path(
        r"^accounts/password/new/(?P<uidb36>[0-9A-Za-z]+)-(?P<key>.+)/$",
        account.password_reset_from_key,
        name="account_reset_password_from_key",
    ),
    path("", include("training.urls")),
    path("", include("assessments.urls")),
    path("", include("certificates.urls")),
]
