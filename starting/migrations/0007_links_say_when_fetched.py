from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('starting', '0006_diary_past'),
    ]

    operations = [
        migrations.AddField(
            model_name='calendarkey',
            name='fetched_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
    ]
