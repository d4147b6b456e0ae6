"""Addresses of accounts, people, the course and Check a tire."""

from django.urls import URLPattern

app_name = "training"
urlpatterns: list[URLPattern] = []
