from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [("series", "0002_pattern_drafts")]

    operations = [
        migrations.AddField("patterndraft", "page", models.CharField(blank=True, max_length=20)),
        migrations.AddField("patterndraft", "turn", models.PositiveIntegerField(default=0)),
    ]
