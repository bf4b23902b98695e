from datetime import UTC, datetime, time

from django.db import migrations


def days_to_times(apps, schema_editor):
    """Keep the day of a fetch as its noon in UTC: the same day in almost any zone."""
    key = apps.get_model('starting', 'CalendarKey')
    for row in key.objects.filter(fetched_on__isnull=False):
        row.fetched_at = datetime.combine(row.fetched_on, time(12), tzinfo=UTC)
        row.save(update_fields=['fetched_at'])


def times_to_days(apps, schema_editor):
    key = apps.get_model('starting', 'CalendarKey')
    for row in key.objects.filter(fetched_at__isnull=False):
        row.fetched_on = row.fetched_at.astimezone(UTC).date()
        row.save(update_fields=['fetched_on'])


class Migration(migrations.Migration):

    dependencies = [
        ('starting', '0007_links_say_when_fetched'),
    ]

    operations = [
        migrations.RunPython(days_to_times, times_to_days),
    ]
