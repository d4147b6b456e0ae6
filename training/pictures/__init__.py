"""Gray pictures of conditions of a tire, computed from a seed; no photograph. Pure: needs numpy and Pillow alone."""

from training.pictures.conditions import CONDITIONS, Condition, Degree
from training.pictures.picture import Picture, bare, described, render
