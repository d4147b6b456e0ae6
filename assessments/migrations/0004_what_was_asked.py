"""What determines the key of each question asked, to count exposure and never to ask somebody the same again."""

from django.db import migrations, models

from assessments.keeping import HANDED_IN
from training.keeping import lifted


class Migration(migrations.Migration):
    dependencies = [("assessments", "0003_draw_bench_and_papers")]

    # Adding a column makes some databases write the table anew, which drops its guards; lifted, they are put back.
    operations = lifted(
        HANDED_IN,
        [
            migrations.AddField(
                model_name="formitem",
                name="digest",
                field=models.CharField(blank=True, db_index=True, max_length=24),
            )
        ],
    )
