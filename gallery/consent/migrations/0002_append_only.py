"""Let the database itself refuse to change or remove what the ledger holds."""

from django.db import migrations

TABLES = ("consent_entry", "consent_consenttext")

# REPLACE deletes without firing delete triggers unless recursive_triggers is on, so a number or
# uuid that is there already is refused before the insert (https://sqlite.org/lang_createtrigger.html).
SQLITE = """
CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table}
BEGIN SELECT RAISE(ABORT, 'the ledger is added to, never changed'); END;
CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table}
BEGIN SELECT RAISE(ABORT, 'the ledger is added to, never changed'); END;
CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table}
WHEN EXISTS (SELECT 1 FROM {table} WHERE {same})
BEGIN SELECT RAISE(ABORT, 'the ledger is added to, never changed'); END;
"""
SAME = {
    "consent_entry": "id = NEW.id OR seq = NEW.seq OR uuid = NEW.uuid",
    "consent_consenttext": (
        "id = NEW.id OR (purpose = NEW.purpose AND scope = NEW.scope "
        "AND language = NEW.language AND version = NEW.version)"
    ),
}

POSTGRESQL_RULE = """
CREATE OR REPLACE FUNCTION ledger_refuses() RETURNS trigger AS $$
BEGIN RAISE EXCEPTION 'the ledger is added to, never changed'; END;
$$ LANGUAGE plpgsql;
"""
POSTGRESQL = """
CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table}
FOR EACH STATEMENT EXECUTE FUNCTION ledger_refuses();
"""


def close_the_ledger(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    if vendor == "postgresql":
        schema_editor.execute(POSTGRESQL_RULE)
    for table in TABLES:
        for statement in _statements(vendor, table):
            schema_editor.execute(statement)


def _statements(vendor, table):
    if vendor == "postgresql":
        return [POSTGRESQL.format(table=table)]
    if vendor == "sqlite":
        whole = SQLITE.format(table=table, same=SAME[table])
        return [part + "END;" for part in whole.split("END;") if part.strip()]
    raise NotImplementedError("The ledger is kept on SQLite or PostgreSQL.")


def open_the_ledger(apps, schema_editor):
    for table in TABLES:
        if schema_editor.connection.vendor == "postgresql":
            schema_editor.execute(f"DROP TRIGGER {table}_append_only ON {table}")
            continue
        for what in ("no_update", "no_delete", "no_replace"):
            schema_editor.execute(f"DROP TRIGGER {table}_{what}")


class Migration(migrations.Migration):
    dependencies = [("consent", "0001_first_rows")]
    operations = [migrations.RunPython(close_the_ledger, open_the_ledger)]
