"""The grower's file: tables, history, migrations, queries."""
