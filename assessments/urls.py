"""Addresses of practice and assessments."""

from django.urls import URLPattern

app_name = "assessments"
urlpatterns: list[URLPattern] = []
