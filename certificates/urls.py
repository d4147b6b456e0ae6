"""Addresses of start pages, hands-on records and certificates."""

from django.urls import URLPattern

app_name = "certificates"
urlpatterns: list[URLPattern] = []
