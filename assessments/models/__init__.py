"""What was asked of whom, and what they answered."""

from assessments.models.attempts import Attempt, ExtraRound, Outcome, Response
from assessments.models.forms import Blueprint, Form, FormItem, Purpose

__all__ = ["Attempt", "Blueprint", "ExtraRound", "Form", "FormItem", "Outcome", "Purpose", "Response"]
