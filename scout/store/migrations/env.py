"""Alembic's entrance: uses the connection it is given, and sees the tables as the program defines them."""

from alembic import context
from sqlmodel import SQLModel

from scout.store import tables

assert tables.NOUNS  # loaded, so that the metadata is complete

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=SQLModel.metadata,
    render_as_batch=True,
    transactional_ddl=False,  # the caller holds one transaction over the whole upgrade and its checks
    compare_type=True,
)
context.run_migrations()
