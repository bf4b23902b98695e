from django.db import migrations


class Migration(migrations.Migration):

    dependencies = [
        ('starting', '0008_days_of_fetches_kept'),
    ]

    operations = [
        migrations.RemoveField(
            model_name='calendarkey',
            name='fetched_on',
        ),
    ]
