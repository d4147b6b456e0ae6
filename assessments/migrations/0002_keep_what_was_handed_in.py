"""After hand-in nobody changes or deletes the attempt, its answers or the items they answer."""

from django.db import migrations

from training.keeping import Refuse

MESSAGE = "handed in: an attempt, its form and its answers are kept as they are"
ITS_ATTEMPT = "EXISTS (SELECT 1 FROM assessments_attempt a WHERE a.handed_in_at IS NOT NULL AND a.{column} = {row})"

KEPT = {
    "assessments_attempt": "OLD.handed_in_at IS NOT NULL",
    "assessments_response": ITS_ATTEMPT.format(column="id", row="OLD.attempt_id"),
    "assessments_formitem": ITS_ATTEMPT.format(column="form_id", row="OLD.form_id"),
    "assessments_form": ITS_ATTEMPT.format(column="form_id", row="OLD.id"),
}


class Migration(migrations.Migration):
    dependencies = [("assessments", "0001_initial")]

    operations = [
        Refuse(act, table, when=condition, message=MESSAGE)
        for table, condition in KEPT.items()
        for act in ("UPDATE", "DELETE")
    ]
