"""Which scope's tires a practice asks about; one drawn before this asked about all."""

from django.db import migrations, models

from assessments.keeping import HANDED_IN
from training.keeping import lifted


class Migration(migrations.Migration):
    dependencies = [("assessments", "0004_what_was_asked")]

    # Adding a column makes some databases write the table anew, which drops its guards; lifted, they are put back.
    operations = lifted(
        HANDED_IN,
        [
            migrations.AddField(
                model_name="form",
                name="scope",
                field=models.SlugField(blank=True, max_length=60),
            )
        ],
    )
