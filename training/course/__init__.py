"""The course: modules of lessons whose limits, steps and drawings come from the rulebook."""

from training.course.lessons import CourseError, Lesson
from training.course.loader import Module, UnknownLesson, lesson, lesson_by_key, module, modules
from training.course.pictures import printed as printed_pictures
from training.course.render import Passage, check, content_versions, passage, render
