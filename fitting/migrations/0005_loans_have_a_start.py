
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0004_tryons_struck_out_and_stopped"),
    ]

    operations = [
        migrations.AddField(
            model_name="loan",
            name="start",
            field=models.DateField(blank=True, null=True, verbose_name="from"),
        ),
        migrations.AddConstraint(
            model_name="loan",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("start__isnull", True),
                    ("returned__isnull", True),
                    ("returned__gte", models.F("start")),
                    _connector="OR",
                ),
                name="loan_returned_later",
                violation_error_message="It is back on or after the day it was lent.",
            ),
        ),
        migrations.AddConstraint(
            model_name="loan",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("start__isnull", True),
                    ("back_by__isnull", True),
                    ("back_by__gte", models.F("start")),
                    _connector="OR",
                ),
                name="loan_back_by_later",
                violation_error_message="It goes back on or after the day it was lent.",
            ),
        ),
    ]
