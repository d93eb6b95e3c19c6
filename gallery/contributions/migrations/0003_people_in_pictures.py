"""Who is in a picture, guardians' answers, objections.

Photos sent before the question was asked count as answered "nobody": their teachers have looked at
them already, and what was public stays so. A draft's photos are asked about before it is sent.
"""

import django.db.models.deletion
import gallery.contributions.models
from django.conf import settings
from django.db import migrations, models


TABLE = "contributions_guardiananswer"
REFUSED = "a guardian's answer is added to, never changed".replace("'", "''")
# As with the ledger: REPLACE deletes without firing the delete trigger, so it is refused before.
SQLITE = {
    "no_update": f"BEFORE UPDATE ON {TABLE}",
    "no_delete": f"BEFORE DELETE ON {TABLE}",
    "no_replace": f"BEFORE INSERT ON {TABLE} WHEN EXISTS (SELECT 1 FROM {TABLE} WHERE id = NEW.id)",
}
POSTGRESQL = (
    f"CREATE TRIGGER {TABLE}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {TABLE} "
    "FOR EACH STATEMENT EXECUTE FUNCTION ledger_refuses()"
)


def answer_for_earlier_photos(apps, schema_editor):
    photos = apps.get_model("contributions", "Photo").objects
    photos.filter(contribution__sent_at__isnull=False).update(people="nobody")


def close_the_answers(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(POSTGRESQL)
        return
    for name, when in SQLITE.items():
        refuse = f"BEGIN SELECT RAISE(ABORT, '{REFUSED}'); END"
        schema_editor.execute(f"CREATE TRIGGER {TABLE}_{name} {when} {refuse}")


def open_the_answers(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(f"DROP TRIGGER {TABLE}_append_only ON {TABLE}")
        return
    for name in SQLITE:
        schema_editor.execute(f"DROP TRIGGER {TABLE}_{name}")


class Migration(migrations.Migration):
    dependencies = [
        ("consent", "0002_append_only"),
        ("contributions", "0002_drafts_and_arrivals"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name="arrival",
            name="what",
            field=models.CharField(
                choices=[("picture", "a picture"), ("objection", "an objection to a picture")],
                default="picture",
                max_length=10,
            ),
        ),
        migrations.AddField(
            model_name="contribution",
            name="guardian_email",
            field=models.EmailField(blank=True, max_length=254),
        ),
        migrations.AddField(
            model_name="contribution",
            name="is_younger",
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name="photo",
            name="guardian_email",
            field=models.EmailField(blank=True, max_length=254),
        ),
        migrations.AddField(
            model_name="photo",
            name="others_agree",
            field=models.BooleanField(default=False, help_text="the sender says so"),
        ),
        migrations.AddField(
            model_name="photo",
            name="people",
            field=models.CharField(
                blank=True,
                choices=[
                    ("", "not answered"),
                    ("nobody", "nobody who can be recognised"),
                    ("me", "me"),
                    ("others", "other grown-ups"),
                    ("child", "a child"),
                ],
                default="",
                max_length=8,
            ),
        ),
        migrations.AddField(
            model_name="photo",
            name="people_seen_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="photo",
            name="people_seen_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="people_seen",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="photo",
            name="sender_is_guardian",
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name="privatelink",
            name="for_address",
            field=models.EmailField(blank=True, max_length=254),
        ),
        migrations.AddField(
            model_name="privatelink",
            name="purpose",
            field=models.CharField(
                choices=[
                    ("own", "the sender's way back"),
                    ("guardian", "a parent or guardian confirms"),
                ],
                default="own",
                max_length=8,
            ),
        ),
        migrations.CreateModel(
            name="GuardianAnswer",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "scope",
                    models.CharField(
                        choices=[("photo", "a photo"), ("garment", "the whole garment")],
                        max_length=8,
                    ),
                ),
                (
                    "about",
                    models.CharField(help_text="public id of the photo or garment", max_length=24),
                ),
                (
                    "purpose",
                    models.CharField(
                        choices=[
                            ("film", "photos in the closing film"),
                            ("public_pages", "photos on the public pages"),
                            ("notes", "notes and numbers for other knitters"),
                            ("name", "name shown"),
                        ],
                        max_length=20,
                    ),
                ),
                ("is_yes", models.BooleanField()),
                ("at", models.DateTimeField()),
                (
                    "way",
                    models.CharField(
                        choices=[
                            ("link", "the guardian's own link"),
                            ("sender", "the sender, who is the parent or guardian"),
                        ],
                        max_length=8,
                    ),
                ),
                ("text_sha256", models.CharField(max_length=64)),
                ("seq", models.PositiveBigIntegerField(unique=True)),
                ("prev_hash", models.CharField(max_length=64)),
                ("hash", models.CharField(max_length=64)),
                (
                    "agreement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="guardian_answers",
                        to="consent.agreement",
                    ),
                ),
                (
                    "text",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="guardian_answers",
                        to="consent.consenttext",
                    ),
                ),
            ],
            options={
                "ordering": ["pk"],
                "indexes": [
                    models.Index(fields=["about", "purpose", "-id"], name="guardian_standing")
                ],
            },
        ),
        migrations.CreateModel(
            name="Objection",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("words", models.TextField(blank=True)),
                ("at", models.DateTimeField(auto_now_add=True)),
                ("resolved_at", models.DateTimeField(blank=True, null=True)),
                (
                    "upheld",
                    models.BooleanField(
                        help_text="yes: hidden for good; no: shown again", null=True
                    ),
                ),
                (
                    "photo",
                    models.ForeignKey(
                        null=True,
                        on_delete=gallery.contributions.models.keep_dates_alone,
                        related_name="objections",
                        to="contributions.photo",
                    ),
                ),
                (
                    "resolved_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="resolved",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["pk"],
                "indexes": [models.Index(fields=["photo", "upheld"], name="objections_to_a_photo")],
            },
        ),
        migrations.RunPython(answer_for_earlier_photos, migrations.RunPython.noop),
        migrations.RunPython(close_the_answers, open_the_answers),
    ]
